"""Lays the same star lists on one another with astroalign (Beroiz, Cabral & Sanchez 2020, A&C 32, 100384).

Debian: python3-astroalign 2.4.1.  Run: /usr/bin/python3 astroalign_shifts.py < lists.json > astroalign.json
"""
import json
import sys

import astroalign
import numpy as np

lists = json.load(sys.stdin)
CENTRE = np.array([[3124.5, 2088.5]])
# Its sample consensus draws at random: the seed makes the run repeatable.
np.random.seed(1)


def laid_on(reference, other):
    t, (source, target) = astroalign.find_transform(np.array(reference), np.array(other), max_control_points=60)
    x, y = t(CENTRE)[0]
    return {
        "centre": [round(float(x), 4), round(float(y), 4)],
        "rotation": round(float(np.degrees(t.rotation)), 5),
        "scale": round(float(t.scale), 7),
        "matched": len(source),
    }


first = lists["frames"][0]
print(json.dumps({
    "astroalign": astroalign.__version__,
    "frames": [laid_on(first, f) for f in lists["frames"][1:]],
    "trains": [laid_on(first, f) for f in lists["trains"]],
}, indent=1))
