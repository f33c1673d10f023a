#!/usr/bin/env python3
"""Sun and Moon events at the edges of the map, with astropy / ERFA, built-in ephemeris, no network, no refraction.

Writes edge-truth.csv beside itself. Sites are invented. Each window is 24 h from the start given.
"""
import csv
import os
import warnings

import numpy as np

warnings.simplefilter('ignore')
import astropy
import astropy.units as u
import erfa
from astropy.coordinates import AltAz, EarthLocation, get_body, solar_system_ephemeris
from astropy.time import Time
from astropy.utils import iers

iers.conf.auto_download = False
iers.conf.auto_max_age = None
iers.conf.iers_degraded_accuracy = 'ignore'
solar_system_ephemeris.set('builtin')

SITES = [  # name, latitude, longitude (east positive), height m
    ('Cierzo Hill', 40.42, -1.12, 1100.0),
    ('Far North', 78.2, 15.6, 10.0),
    ('Far South', -77.8, 166.7, 20.0),
    ('Date Line East', 52.0, -179.5, 50.0),
    ('Arctic Circle', 66.4, 25.0, 100.0),
]
DATES = ['2026-01-10', '2026-02-20', '2026-03-21', '2026-06-21', '2026-09-09', '2026-10-14', '2026-12-21']
LIMITS = [('sunset', -50 / 60), ('civil', -6.0), ('nautical', -12.0), ('astronomical', -18.0)]
MOON_R_KM = 1737.4
STEP_S = 30.0


def series(start, location, name):
    times = start + np.arange(int(86400 / STEP_S) + 1) * STEP_S * u.s
    body = get_body(name, times, location)
    seen = body.transform_to(AltAz(obstime=times, location=location, pressure=0 * u.hPa))
    return times, seen.alt.deg, seen.distance.to_value(u.km)


def passages(times, values):
    """Times where the values cross zero, by the parabola through three samples; [(Time, rising)]."""
    found = []
    for i in np.where(np.sign(values[:-1]) * np.sign(values[1:]) < 0)[0]:
        first = min(max(i - 1, 0), len(values) - 3)
        roots = np.roots(np.polyfit([0, 1, 2], values[first:first + 3], 2))
        real = [r.real for r in roots if abs(r.imag) < 1e-9]
        root = min(real, key=lambda r: abs(r - (i - first + 0.5)))
        found.append((times[0] + (first + root) * STEP_S * u.s, values[i + 1] > values[i]))
    return found


def iso(time):
    if time is None:
        return ''
    time = time.copy()
    time.precision = 1
    return time.utc.isot + 'Z'


def pick(found, rising, last=False):
    times = [time for time, up in found if up == rising]
    return (times[-1] if last else times[0]) if times else None


rows = []
for name, latitude, longitude, height in SITES:
    location = EarthLocation.from_geodetic(longitude * u.deg, latitude * u.deg, height * u.m)
    for date in DATES:
        start = Time(date + 'T12:00:00', scale='utc') - round(longitude / 15 * 60) * 60 * u.s
        times, sun, _ = series(start, location, 'sun')
        row = dict(site=name, lat_deg=latitude, lon_deg=longitude, height_m=height, evening_date=date,
                   start_utc=iso(start), sun_min_alt_deg=f'{sun.min():.4f}', sun_max_alt_deg=f'{sun.max():.4f}')
        for limit, altitude in LIMITS:
            found = passages(times, sun - altitude)
            row[limit + '_pm'] = iso(pick(found, False))
            row[limit + '_am'] = iso(pick(found, True, last=True))
        times, moon, km = series(start, location, 'moon')
        found = passages(times, moon + 34 / 60 + np.degrees(np.arcsin(MOON_R_KM / km)))
        row['moonrise'] = iso(pick(found, True))
        row['moonset'] = iso(pick(found, False))
        rows.append(row)

with open(os.path.join(os.path.dirname(os.path.abspath(__file__)), 'edge-truth.csv'), 'w', newline='') as file:
    writer = csv.DictWriter(file, fieldnames=list(rows[0]), lineterminator='\n')
    writer.writeheader()
    writer.writerows(rows)
print(len(rows), 'rows, astropy', astropy.__version__, 'pyerfa', erfa.__version__)
