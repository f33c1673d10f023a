"""Compares what a report measured on the hostile frames with what was drawn and with SEP; prints hostile.json.

Debian: python3-sep, python3-astropy.
Run: /usr/bin/python3 hostile_compare.py FOLDER night.json > hostile.json
"""
import json
import os
import sys

import numpy as np
import sep
from astropy.io import fits

FOLDER, NIGHT = sys.argv[1:3]
TRUTH = json.load(open(os.path.join(FOLDER, "truth.json")))
OURS = {os.path.basename(frame["file"]): frame["stars"] for frame in json.load(open(NIGHT))["frames"]}
sep.set_extract_pixstack(2_000_000)


def pixels(path):
    for unit in fits.open(path):
        if unit.data is not None and unit.header.get("NAXIS", 0) >= 2 and unit.is_image:
            data = np.squeeze(unit.data).astype(np.float64)
            return data[1] if data.ndim == 3 else data


def by_sep(path, fwhm):
    data = np.ascontiguousarray(pixels(path))
    mask = ~np.isfinite(data)
    data[mask] = 0
    background = sep.Background(data, mask=mask, bw=64, bh=64, fw=3, fh=3)
    flat = data - background
    found = sep.extract(flat, 5, err=background.globalrms, minarea=5, mask=mask)
    found = found[(found["flag"] & sep.OBJ_TRUNC) == 0]
    answer = {"count": len(found), "background": background.globalback, "noise": background.globalrms}
    if len(found) == 0 or fwhm is None:
        return answer
    bright = found[found["flux"] > 60 * background.globalrms]
    bright = bright if len(bright) >= 4 else found
    radius = np.full(len(bright), 3 * fwhm)
    flux, _, _ = sep.sum_circle(flat, bright["x"], bright["y"], radius[0], mask=mask, subpix=0)
    half, flag = sep.flux_radius(flat, bright["x"], bright["y"], radius, 0.5, normflux=flux, mask=mask, subpix=20)
    half = np.median(half[(flag == 0) & np.isfinite(half)])
    # Spreading pixels over their squares adds their variance once more.
    answer["halfFlux"] = float(np.sqrt(max(half ** 2 - 8 * np.log(2) / 48, 0)))
    shape = (bright["a"] ** 2 - 1 / 12) / np.maximum(bright["b"] ** 2 - 1 / 12, 1e-3)
    answer["elongation"] = float(np.sqrt(np.median(shape)))
    return answer


def rounded(value):
    return {k: v if v is None or isinstance(v, (int, str)) else float(f"{v:.5g}") for k, v in value.items()}


KEYS = ("count", "fwhm", "fwhmUncertainty", "halfFlux", "elongation", "direction", "background", "noise", "saturated")
lines = []
for file, truth in TRUTH.items():
    ours = OURS.get(file)
    row = {"drawn": rounded(truth), "sep": rounded(by_sep(os.path.join(FOLDER, file), truth["fwhm"])),
           "measured": None if ours is None else rounded({k: ours[k] for k in KEYS})}
    lines.append(f' "{file}": {json.dumps(row)}')
    d, s, o = row["drawn"], row["sep"], row["measured"] or {}

    def three(key):
        return f"{key[:5]} {d.get(key)}|{o.get(key)}|{s.get(key)}"
    print(f"{file:38s}", three("count"), three("fwhm"), three("elongation"), three("direction"),
          three("background"), three("noise"), "hfr", o.get("halfFlux"), s.get("halfFlux"), file=sys.stderr)
print("{\n" + ",\n".join(lines) + "\n}")
