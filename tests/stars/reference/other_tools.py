"""Measures the drawn frames with SEP, Source Extractor, photutils and astropy; prints what the tests compare with.

Debian: python3-sep, python3-photutils, python3-astropy, source-extractor.
Run: /usr/bin/python3 other_tools.py FOLDER > other-tools.json    (FOLDER as written by draw.ts)
"""
import json
import os
import subprocess
import sys
import tempfile
import warnings

import astropy
import numpy as np
import photutils
import sep
from astropy.io import fits
from astropy.modeling.fitting import LevMarLSQFitter
from astropy.modeling.models import Gaussian2D
from astropy.stats import SigmaClip
from photutils.aperture import CircularAperture, aperture_photometry
from photutils.background import Background2D, SExtractorBackground
from photutils.segmentation import SourceCatalog, detect_sources

warnings.simplefilter("ignore")
FOLDER = sys.argv[1]
# Radius of the aperture, px: 3 × the drawn FWHM, 6 px at least.
RADIUS = {"gaussian-1.7": 6.0, "gaussian-1.9": 6.0, "gaussian-2.6": 7.8, "gaussian-4": 12.0, "gaussian-6": 18.0,
          "long-gaussian": 9.6, "long-moffat": 9.0, "gradient-moffat": 10.2}
SHARE = "/usr/share/source-extractor"
# A pixel's variance per axis, px², and the square of the width a Gaussian of that variance has at half maximum.
PIXEL = 1 / 12
PIXEL_FWHM2 = 8 * np.log(2) / 12


def with_sep(data, radius):
    background = sep.Background(data, bw=64, bh=64, fw=3, fh=3)
    flat = data - background
    # Unconvolved: SEP takes moments on the image it detects on.
    found = sep.extract(flat, 5, err=background.globalrms, minarea=5, filter_kernel=None)
    x, y = found["x"], found["y"]
    flux, _, _ = sep.sum_circle(flat, x, y, radius, subpix=0)
    half, _ = sep.flux_radius(flat, x, y, np.full(len(x), radius), 0.5, normflux=flux, subpix=20)
    # Overlap with a circle spreads each pixel over its square, which adds the pixel's width once more.
    fwhm = np.sqrt((2 * half) ** 2 - PIXEL_FWHM2)
    a, b = np.sqrt(found["a"] ** 2 - PIXEL), np.sqrt(found["b"] ** 2 - PIXEL)
    stars = np.column_stack([x + 1, y + 1, flux, half, fwhm, a / b, np.degrees(found["theta"]) % 180])
    level = [float(np.median(background.back())), background.globalrms]
    return level, stars[np.argsort(y)]


def with_source_extractor(path):
    columns = "X_IMAGE Y_IMAGE FLUX_AUTO A_IMAGE B_IMAGE THETA_IMAGE BACKGROUND".split()
    with tempfile.TemporaryDirectory() as work:
        with open(f"{work}/columns.param", "w") as file:
            file.write("\n".join(columns) + "\n")
        subprocess.run(["source-extractor", path, "-c", f"{SHARE}/default.sex", "-PARAMETERS_NAME",
                        f"{work}/columns.param", "-FILTER", "N", "-STARNNW_NAME", f"{SHARE}/default.nnw",
                        "-DETECT_THRESH", "5", "-ANALYSIS_THRESH", "5", "-CATALOG_NAME", f"{work}/out.cat",
                        "-VERBOSE_TYPE", "QUIET"], check=True, cwd=work)
        rows = np.loadtxt(f"{work}/out.cat")
    a, b = np.sqrt(rows[:, 3] ** 2 - PIXEL), np.sqrt(rows[:, 4] ** 2 - PIXEL)
    return {"count": len(rows), "background": round(float(np.median(rows[:, 6])), 3),
            "elongation": round(float(np.median(a / b)), 4), "direction": round(axis_mean(rows[:, 5]), 2)}


def with_photutils(data, stars, radius):
    clip = SigmaClip(sigma=3)
    background = Background2D(data, 64, filter_size=3, sigma_clip=clip, bkg_estimator=SExtractorBackground())
    flat = data - background.background
    places = stars[:, :2] - 1
    sums = aperture_photometry(flat, CircularAperture(places, radius), method="exact")["aperture_sum"]
    catalogue = SourceCatalog(flat, detect_sources(flat, 5 * background.background_rms_median, npixels=5))
    a = np.sqrt(catalogue.semimajor_sigma.value ** 2 - PIXEL)
    b = np.sqrt(catalogue.semiminor_sigma.value ** 2 - PIXEL)
    return {"count": len(catalogue), "background": round(float(background.background_median), 3),
            "noise": round(float(background.background_rms_median), 3),
            "fluxBySep": round(float(np.median(np.array(sums) / stars[:, 2])), 5),
            "elongation": round(float(np.median(a / b)), 4),
            "direction": round(axis_mean(catalogue.orientation.value), 2)}


def with_fits(data, level, stars):
    """FWHM by least squares: a Gaussian on each star's pixels, as recorded."""
    fit = LevMarLSQFitter()
    widths, ratios, directions = [], [], []
    for x, y, _, half, *_ in stars:
        reach = int(round(3 * half)) + 1
        cx, cy = int(round(x - 1)), int(round(y - 1))
        rows, columns = np.mgrid[cy - reach:cy + reach + 1, cx - reach:cx + reach + 1]
        cut = data[cy - reach:cy + reach + 1, cx - reach:cx + reach + 1] - level
        first = Gaussian2D(cut.max(), x - 1, y - 1, half / 1.1, half / 1.2, 0.5)
        model = fit(first, columns, rows, cut)
        sizes = abs(model.x_stddev.value), abs(model.y_stddev.value)
        turned = 0 if sizes[0] > sizes[1] else 90
        long, short = max(sizes), min(sizes)
        widths.append(2 * np.sqrt(2 * np.log(2) * long * short))
        ratios.append(np.sqrt((long ** 2 - PIXEL) / (short ** 2 - PIXEL)))
        directions.append(np.degrees(model.theta.value) + turned)
    return {"fwhm": round(float(np.median(widths)), 4), "elongation": round(float(np.median(ratios)), 4),
            "direction": round(axis_mean(np.array(directions)), 2)}


def axis_mean(degrees):
    return float(np.degrees(np.angle(np.exp(2j * np.radians(degrees)).mean())) / 2 % 180)


def measured(name):
    path = os.path.join(FOLDER, f"{name}.fits")
    data = fits.getdata(path).astype(np.float64)
    (level, noise), stars = with_sep(data, RADIUS[name])
    answer = {
        "radius": RADIUS[name],
        "sep": {"background": round(level, 3), "noise": round(noise, 3),
                # x, y (from 1), flux, half-flux radius, FWHM, a/b, direction
                "stars": [[round(float(v), d) for v, d in zip(row, (3, 3, 1, 4, 4, 4, 2))] for row in stars]},
        "sourceExtractor": with_source_extractor(path),
        "photutils": with_photutils(data, stars, RADIUS[name]),
    }
    if "gaussian" in name:
        answer["astropy"] = with_fits(data, level, stars)
    return answer


lines = [f'  "{name}": {json.dumps(measured(name))}' for name in RADIUS]
text = ",\n".join(lines).replace("[[", "[\n    [").replace("], [", "],\n    [")
versions = {"sep": sep.__version__, "photutils": photutils.__version__, "astropy": astropy.__version__,
            "source-extractor": "2.25.0"}
print(f'{{\n "versions": {json.dumps(versions)},\n "frames": {{\n{text}\n }}\n}}')
