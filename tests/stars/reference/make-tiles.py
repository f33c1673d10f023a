"""Tile-compressed files for tests/stars/pixels/tiles.test.ts, packed by fpack and unpacked by funpack (libcfitsio-bin).

Draws a small frame of our own, packs it with every codec, and writes the SHA-256 of the pixels that funpack restores:
values in row order as little-endian 32-bit floats (what measuring works in), NaN as 0x7fc00000.

    /usr/bin/python3 make-tiles.py        # needs numpy, astropy, fpack, funpack
"""

import hashlib
import json
import pathlib
import subprocess
import tempfile

import numpy as np
from astropy.io import fits

HERE = pathlib.Path(__file__).parent
OUT = HERE / "tiles"
WIDTH, HEIGHT = 60, 44

# name, stored as, fpack's options
CASES = [
    ("rice-16", "u2", ["-r"]),
    ("rice-16-tiles", "u2", ["-r", "-t", "23,10"]),
    ("rice-16-whole", "u2", ["-r", "-w"]),
    ("rice-16-noise", "u2n", ["-r"]),
    ("rice-8", "u1", ["-r"]),
    ("rice-32", "i4", ["-r"]),
    ("gzip1-16", "u2", ["-g1"]),
    ("gzip1-32", "i4", ["-g1"]),
    ("gzip2-16", "u2", ["-g2"]),
    ("gzip2-8", "u1", ["-g2"]),
    ("gzip2-32", "i4", ["-g2"]),
    ("none-16", "u2", ["-d"]),
    ("rice-float-dither1", "f4", ["-r", "-q97", "8"]),
    ("rice-float-dither2", "f4z", ["-r", "-qz9999", "8"]),
    ("rice-float-nodither", "f4", ["-r", "-q0", "8"]),
    ("rice-float-blank", "f4n", ["-r", "-q5", "8"]),
    ("rice-float-constant-rows", "f4c", ["-r", "-q5", "8"]),
    ("gzip1-float-dither1", "f4", ["-g1", "-q31", "8"]),
    ("gzip2-float-dither2", "f4z", ["-g2", "-qz31", "8"]),
    ("gzip1-float-lossless", "f4", ["-g1", "-q", "0"]),
    ("gzip2-float-lossless", "f4", ["-g2", "-q", "0"]),
    ("rice-double-dither1", "f8", ["-r", "-q10000", "8"]),
    ("gzip2-double-lossless", "f8", ["-g2", "-q", "0"]),
    ("hcompress-16", "u2", ["-h"]),
    ("plio-16", "i2p", ["-p"]),
]


def drawn(kind):
    random = np.random.default_rng(7)
    y, x = np.mgrid[0:HEIGHT, 0:WIDTH]
    light = 300.0 + random.normal(0, 9, (HEIGHT, WIDTH))
    for sx, sy, flux in [(12.3, 9.1, 9000), (40.7, 30.2, 60000), (50.1, 7.7, 2500)]:
        light += flux / (2 * np.pi * 1.2**2) * np.exp(-((x - sx) ** 2 + (y - sy) ** 2) / (2 * 1.2**2))
    if kind == "u2n":
        return random.integers(0, 65536, (HEIGHT, WIDTH)).astype("u2")
    if kind == "u1":
        return np.clip(light / 40, 0, 255).astype("u1")
    if kind == "i4":
        return (np.round(light) * 100 - 40000).astype("i4")
    if kind == "i2p":
        return np.round(light).astype("i2")
    if kind == "u2":
        return np.clip(np.round(light), 0, 65535).astype("u2")
    if kind == "f4z":
        light[10:14, 5:30] = 0
    if kind == "f4n":
        light[20, 3:9] = np.nan
        light[31, 50] = np.nan
    if kind == "f4c":
        light[5:9, :] = 12.25
    return light.astype("f8" if kind == "f8" else "f4")


def main():
    OUT.mkdir(exist_ok=True)
    hashes = {}
    with tempfile.TemporaryDirectory() as folder:
        for name, kind, options in CASES:
            plain = pathlib.Path(folder) / f"{name}.fits"
            fits.PrimaryHDU(drawn(kind)).writeto(plain, overwrite=True)
            packed = OUT / f"{name}.fits.fz"
            packed.unlink(missing_ok=True)
            # -qN gives the dithering seed; the level is the argument after it.
            subprocess.run(["fpack", *options, "-O", str(packed), str(plain)], check=True)
            back = pathlib.Path(folder) / f"{name}.back.fits"
            subprocess.run(["funpack", "-O", str(back), str(packed)], check=True)
            with fits.open(back) as units:
                unit = next(u for u in units if u.data is not None)
                values = np.asarray(unit.data, dtype="f8").astype("<f4")
            bits = values.view("<u4").copy()
            bits[np.isnan(values)] = 0x7FC00000
            hashes[name] = hashlib.sha256(bits.tobytes()).hexdigest()
    (HERE / "tiles.json").write_text(json.dumps({"width": WIDTH, "height": HEIGHT, "sha256": hashes}, indent=1) + "\n")


if __name__ == "__main__":
    main()
