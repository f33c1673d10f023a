"""Draws forty-one hostile frames with numpy and astropy, packs some with fpack; truth.json beside them is what was drawn.

Debian: python3-astropy, python3-sep, libcfitsio-bin (fpack).
Run: /usr/bin/python3 hostile_frames.py FOLDER; then measure and compare as README.md says.
Nothing here is shared with the project's own drawing.
"""
import gzip
import json
import os
import subprocess
import sys

import numpy as np
from astropy.io import fits

FOLDER = sys.argv[1]
os.makedirs(FOLDER, exist_ok=True)
HEIGHT, WIDTH = 520, 640
GAIN, READ = 1.4, 5.0
TRUTH = {}


def profile(kind, fwhm, beta=3.0, elongation=1.0, angle=0.0):
    """Light per px² around the origin, of unit flux; the geometric mean of both widths is the FWHM."""
    c, s, q = np.cos(np.radians(angle)), np.sin(np.radians(angle)), np.sqrt(elongation)

    def radius2(x, y):
        return ((x * c + y * s) / q) ** 2 + ((-x * s + y * c) * q) ** 2
    if kind == "gauss":
        v = fwhm ** 2 / (8 * np.log(2))
        return lambda x, y: np.exp(-radius2(x, y) / (2 * v)) / (2 * np.pi * v)
    if kind == "moffat":
        a2 = (fwhm / 2) ** 2 / (2 ** (1 / beta) - 1)
        return lambda x, y: (beta - 1) / (np.pi * a2) * (1 + radius2(x, y) / a2) ** -beta
    inner, outer = fwhm                                   # ring

    def ring(x, y):
        r = np.sqrt(radius2(x, y))
        soft = 0.7
        edge = (1 + np.tanh((r - inner) / soft)) * (1 - np.tanh((r - outer) / soft)) / 4
        return edge / (np.pi * (outer ** 2 - inner ** 2))
    return ring


def trailed(light, length, angle, steps=40):
    along = (np.arange(steps) + 0.5) / steps * length - length / 2
    dx, dy = along * np.cos(np.radians(angle)), along * np.sin(np.radians(angle))
    return lambda x, y: sum(light(x - i, y - j) for i, j in zip(dx, dy)) / steps


def paint(image, light, stars, reach, fine=7):
    """Means over pixels, `fine` × `fine` points each."""
    sub = (np.arange(fine) + 0.5) / fine - 0.5
    for x, y, flux in stars:
        x0, x1 = max(0, int(x - reach)), min(image.shape[1], int(x + reach) + 2)
        y0, y1 = max(0, int(y - reach)), min(image.shape[0], int(y + reach) + 2)
        if x0 >= x1 or y0 >= y1:
            continue
        gy, gx = np.mgrid[y0:y1, x0:x1].astype(float)
        total = np.zeros(gx.shape)
        for j in sub:
            for i in sub:
                total += light(gx + i - x, gy + j - y)
        image[y0:y1, x0:x1] += flux * total / fine ** 2


def recorded_fwhm(light, reach):
    """Diameter of the circle with the area above half of the greatest pixel-averaged brightness."""
    step = 1 / 21
    n = int(reach / step)
    gy, gx = np.mgrid[-n:n + 1, -n:n + 1] * step
    plane = light(gx, gy)
    box = 21
    total = np.cumsum(np.cumsum(np.pad(plane, ((1, 0), (1, 0))), 0), 1)
    mean = (total[box:, box:] - total[:-box, box:] - total[box:, :-box] + total[:-box, :-box]) / box ** 2
    return 2 * np.sqrt((mean > mean.max() / 2).sum() * step ** 2 / np.pi)


def recorded_axes_fwhm(light, reach, angle):
    """Geometric mean of the widths at half maximum along and across a direction, averaged over pixels."""
    sub = (np.arange(21) + 0.5) / 21 - 0.5
    along = np.arange(-reach, reach, 0.02)
    widths = []
    for turn in (angle, angle + 90):
        x, y = along * np.cos(np.radians(turn)), along * np.sin(np.radians(turn))
        line = sum(light(x + i, y + j) for i in sub for j in sub) / 441
        widths.append((line > line.max() / 2).sum() * 0.02)
    return float(np.sqrt(widths[0] * widths[1]))


def grid(rng, spacing, flux, width=WIDTH, height=HEIGHT):
    places = []
    for y in np.arange(spacing * 0.75, height - spacing * 0.6, spacing):
        for x in np.arange(spacing * 0.75, width - spacing * 0.6, spacing):
            u, v = rng.uniform(-0.16, 0.16, 2) * spacing
            places.append((x + u, y + v, flux[0] * (flux[1] / flux[0]) ** rng.random()))
    return places


def expose(rng, light, read=READ, gain=GAIN):
    return (rng.poisson(np.maximum(light, 0) * gain) + rng.normal(0, read, light.shape)) / gain


BASE = {"IMAGETYP": "Light Frame", "TELESCOP": "heron", "INSTRUME": "mono 26 MP", "FILTER": "L", "EXPTIME": 120.0,
        "FOCALLEN": 480.0, "XPIXSZ": 3.76, "EGAIN": GAIN}


def header_of(number, cards):
    header = fits.Header()
    for key, value in {**BASE, "OBJECT": f"field {number}",
                       "DATE-OBS": f"2026-10-14T{19 + number // 20:02d}:{(number % 20) * 3:02d}:00", **cards}.items():
        if value is not None:
            header[key] = value
    return header


def write(number, name, data, cards=None, pack=None, zipped=False, make=None):
    path = os.path.join(FOLDER, f"{number:02d}_{name}.fits")
    header = header_of(number, cards or {})
    units = make(data, header) if make else fits.HDUList([fits.PrimaryHDU(data, header)])
    units.writeto(path, overwrite=True)
    if zipped:
        with open(path, "rb") as plain, gzip.open(path + ".gz", "wb", compresslevel=1) as packed:
            packed.write(plain.read())
        os.remove(path)
        return os.path.basename(path) + ".gz"
    if pack is not None:
        if os.path.exists(path + ".fz"):
            os.remove(path + ".fz")
        subprocess.run(["fpack", "-D", "-Y", *pack, path], check=True)
        return os.path.basename(path) + ".fz"
    return os.path.basename(path)


def u16(image):
    return np.clip(np.rint(image), 0, 65535).astype(np.uint16)


def add(name, *, light=None, stars=None, sky=600.0, convert=u16, edit=None, paint_more=None, truth=None, spacing=60,
        flux=(15e3, 150e3), reach=30, fine=7, seed=None, read=READ, gain=GAIN, **writing):
    number = len(TRUTH) + 1
    rng = np.random.default_rng(9000 + (seed or number))
    image = np.zeros((HEIGHT, WIDTH))
    stars = grid(rng, spacing, flux) if stars is None else stars(rng)
    if light is not None:
        paint(image, light, stars, reach, fine)
    image += sky if np.isscalar(sky) else sky(rng)
    if paint_more:
        paint_more(image, rng)
    image = expose(rng, image, read, gain)
    if edit:
        image = edit(image, rng)
    file = write(number, name, convert(image), **writing)
    own = {"count": len(stars) if light is not None else 0, "background": sky if np.isscalar(sky) else None,
           "noise": float(np.sqrt(sky * gain + read ** 2) / gain) if np.isscalar(sky) else None,
           "fwhm": float(recorded_fwhm(light, min(reach, 25))) if light is not None else None,
           "elongation": 1.0 if light is not None else None, "direction": None}
    if truth and truth.get("direction") is not None:
        own["fwhm"] = recorded_axes_fwhm(light, min(reach, 25), truth["direction"])
    own.update(truth or {})
    TRUTH[file] = own
    print(file, flush=True)


g = profile
# BITPIX kinds and codecs
add("u16", light=g("gauss", 2.6))
add("bitpix8", light=g("gauss", 4.0), flux=(40e3, 90e3), reach=20, sky=900.0,
    convert=lambda i: np.clip(np.rint(i / 24), 0, 255).astype(np.uint8),
    truth={"background": 37.5, "noise": float(np.hypot(np.sqrt(900 * GAIN + READ ** 2) / GAIN / 24, 12 ** -0.5))})
add("signed16-below-zero", light=g("moffat", 3.0, 3.5), edit=lambda i, r: i - 700,
    convert=lambda i: np.clip(np.rint(i), -32768, 32767).astype(np.int16), truth={"background": -100.0})
add("int32", light=g("moffat", 3.4, 4.0), convert=lambda i: np.rint(i * 16).astype(np.int32),
    truth={"background": 9600.0, "noise": None}, cards={"EGAIN": GAIN / 16})


def raw_scaled(path_data, header):
    """BSCALE and BZERO beside integers as they are."""
    unit = fits.PrimaryHDU(path_data)
    unit.header.update(header)
    units = fits.HDUList([unit])
    unit.header["BSCALE"] = (0.01, "as stored")
    unit.header["BZERO"] = (1000.0, "as stored")
    return units


add("int32-bscale", light=g("gauss", 3.0), convert=lambda i: np.rint((i - 1000) / 0.01).astype(np.int32),
    make=raw_scaled)
add("float-0-to-1", light=g("moffat", 2.8, 3.0), convert=lambda i: (i / 65535).astype(np.float32),
    truth={"background": 600 / 65535, "noise": None}, cards={"EGAIN": GAIN * 65535})


def nan_border(image, rng):
    image = image.copy()
    image[:23], image[-9:], image[:, :31], image[:, -14:] = np.nan, np.nan, np.nan, np.nan
    return image


add("double-nan-border", light=g("gauss", 3.2), edit=nan_border, convert=lambda i: i.astype(np.float64))


def holes(image, rng):
    image = image.copy()
    for _ in range(300):
        image[rng.integers(HEIGHT), rng.integers(WIDTH)] = rng.choice([np.nan, np.inf, -np.inf])
    return image


add("float-holes", light=g("gauss", 3.2), edit=holes, convert=lambda i: i.astype(np.float32))
add("rice-u16", light=g("moffat", 3.0, 3.0), pack=["-r"])
add("rice-int32", light=g("gauss", 3.6), convert=lambda i: np.rint(i).astype(np.int32), pack=["-r"])
add("gzip1-u16", light=g("gauss", 2.4), pack=["-g1"])
add("gzip2-float-lossless", light=g("moffat", 3.0, 4.765), convert=lambda i: i.astype(np.float32), pack=["-g2", "-q", "0"])
add("rice-float-quantised", light=g("gauss", 2.8), convert=lambda i: i.astype(np.float32), pack=["-r", "-q", "4"])
add("rice-double-quantised", light=g("moffat", 2.8, 3.5), convert=lambda i: i, pack=["-r", "-q", "8"])
add("rice-whole-tile", light=g("gauss", 3.1), pack=["-r", "-w"])
add("float-gz", light=g("gauss", 3.0), convert=lambda i: i.astype(np.float32), zipped=True)
# Contents
add("ring", light=g("ring", (6.0, 13.0)), spacing=72, flux=(200e3, 900e3), reach=22, truth={"fwhm": 26.0})
add("ring-small-rice", light=g("ring", (2.5, 6.0)), flux=(80e3, 500e3), reach=14, pack=["-r"], truth={"fwhm": 12.0})


def nebula(image, rng):
    gy, gx = np.mgrid[0:HEIGHT, 0:WIDTH]
    for _ in range(60):
        x, y, w = rng.uniform(0, WIDTH), rng.uniform(0, HEIGHT), rng.uniform(18, 90)
        image += rng.uniform(20, 260) * np.exp(-((gx - x) ** 2 + (gy - y) ** 2) / (2 * w * w))


add("nebula", light=g("gauss", 3.0), paint_more=nebula, truth={"background": None, "noise": None})


def slope(rng):
    gy, gx = np.mgrid[0:HEIGHT, 0:WIDTH]
    r2 = ((gx - 320) / 400) ** 2 + ((gy - 260) / 400) ** 2
    return (600 + 2.5 * gx + 1.2 * gy) * (1 - 0.35 * r2)


add("gradient-vignette", light=g("moffat", 3.2, 3.5), sky=slope)


def satellites(image, rng):
    gy, gx = np.mgrid[0:HEIGHT, 0:WIDTH]
    for a, b, c, level in ((0.7, 0.714, 420, 900), (-0.3, 0.954, 150, 3000), (0.99, 0.14, 350, 250)):
        image += level * np.exp(-((gx * a + gy * b - c) ** 2) / (2 * 1.6 ** 2))


add("satellites", light=g("moffat", 3.0, 3.5), paint_more=satellites)
add("cap-on", sky=12.0, read=4.0, edit=lambda i, r: i + 300, truth={"background": 312.0})


def cloud(rng):
    gy, gx = np.mgrid[0:HEIGHT, 0:WIDTH]
    out = np.full((HEIGHT, WIDTH), 1800.0)
    for _ in range(25):
        x, y, w = rng.uniform(0, WIDTH), rng.uniform(0, HEIGHT), rng.uniform(60, 200)
        out += rng.uniform(-150, 250) * np.exp(-((gx - x) ** 2 + (gy - y) ** 2) / (2 * w * w))
    return out


add("pure-cloud", sky=cloud)
add("no-star", sky=450.0)
add("four-stars", light=g("gauss", 3.0), stars=lambda r: [(90, 80, 9e4), (500, 110, 4e4), (320, 300, 6e4), (200, 450, 5e4)])
add("binned-2", light=g("gauss", 2.3), cards={"XBINNING": 2, "YBINNING": 2, "XPIXSZ": 7.52}, truth={"binning": 2})


def bayer(image, rng):
    gy, gx = np.mgrid[0:HEIGHT, 0:WIDTH]
    red, blue = (gy % 2 == 0) & (gx % 2 == 0), (gy % 2 == 1) & (gx % 2 == 1)
    image[red] *= 0.55
    image[blue] *= 0.7


add("bayer-rggb", light=g("moffat", 3.3, 3.5), paint_more=bayer, flux=(3e4, 2e5), cards={"BAYERPAT": "RGGB", "FILTER": None})


def planes(image):
    return np.stack([u16(image * 0.6), u16(image), u16(image * 0.8 + 40)])


add("three-planes", light=g("gauss", 3.0), convert=planes, cards={"FILTER": None})
# Below a recorded width of 1.5 px the pixel is taken out: the width before the pixels is the truth.
add("under-1.2", light=g("gauss", 1.2), reach=8, fine=21, flux=(6e3, 50e3), truth={"fwhm": 1.2})
add("under-1.2-rice-float", light=g("gauss", 1.2), reach=8, fine=21, flux=(6e3, 50e3),
    convert=lambda i: i.astype(np.float32), pack=["-r", "-q", "8"], truth={"fwhm": 1.2})
add("bloated-12", light=g("moffat", 12.0, 4.0), spacing=115, flux=(300e3, 1.2e6), reach=55, fine=3)
add("bloated-12-long", light=g("moffat", 12.0, 4.0, 1.3, 60), spacing=115, flux=(300e3, 1.2e6), reach=55, fine=3,
    truth={"elongation": 1.3, "direction": 60.0})
add("trailed-8", light=trailed(g("gauss", 2.8), 8, 25), reach=22, fine=5,
    truth={"elongation": float(np.sqrt(1 + 64 / 12 / (2.8 ** 2 / (8 * np.log(2))))), "direction": 25.0})
add("long-1.6", light=g("moffat", 3.0, 3.5, 1.6, 110), truth={"elongation": 1.6, "direction": 110.0})


def particles(image, rng):
    image = image.copy()
    for _ in range(2500):
        image[rng.integers(HEIGHT), rng.integers(WIDTH)] += rng.uniform(300, 20000)
    for _ in range(40):
        x, y, t, n = rng.uniform(20, 600), rng.uniform(20, 480), rng.uniform(0, np.pi), rng.integers(4, 25)
        for k in range(n):
            image[int(y + k * np.sin(t)) % HEIGHT, int(x + k * np.cos(t)) % WIDTH] += rng.uniform(800, 9000)
    return image


add("hot-and-cosmic", light=g("gauss", 2.6), edit=particles)
add("cluster", light=g("moffat", 2.8, 3.0), reach=18, fine=5,
    stars=lambda r: [(x, y, f) for x, y, f in zip(r.normal(320, 120, 1400), r.normal(260, 100, 1400),
                                                  3e3 * 60 ** (r.random(1400) ** 2))],
    truth={"count": None, "background": None, "noise": None})
add("saturated-third", light=g("moffat", 3.0, 3.5), flux=(5e4, 3e6), reach=50, fine=5, truth={"background": None})
add("bright-twilight", light=g("gauss", 3.0), sky=41000.0, flux=(60e3, 250e3))
add("faint-only", light=g("gauss", 3.0), flux=(1500, 2600))


def in_extension(data, header):
    table = fits.BinTableHDU.from_columns([fits.Column("n", "J", array=np.arange(5))])
    image = fits.ImageHDU(data[np.newaxis], header)
    return fits.HDUList([fits.PrimaryHDU(), image, table])


add("extension-naxis3-1", light=g("gauss", 3.0), make=in_extension)


def long_header(data, header):
    for n in range(400):
        header[f"HIERARCH note of the evening {n}"] = "x" * (n % 40)
    header["STORY"] = "wind " * 60
    header["COMMENT"] = "a long one " * 40
    return fits.HDUList([fits.PrimaryHDU(data, header)])


add("long-header", light=g("moffat", 3.6, 2.5), spacing=88, reach=44, make=long_header)

with open(os.path.join(FOLDER, "truth.json"), "w") as file:
    json.dump(TRUTH, file, indent=1)
