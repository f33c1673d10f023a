"""The anchor of the sky benchmark: Moon and one target at many instants with astropy, as an ordinary script would.

    python3 astropy_anchor.py INSTANTS

Prints the same figures as place.mjs.
"""
import sys
import warnings

import numpy as np

warnings.simplefilter('ignore')
import astropy.units as u
from astropy.coordinates import AltAz, EarthLocation, SkyCoord, get_body, solar_system_ephemeris
from astropy.time import Time
from astropy.utils import iers

iers.conf.auto_download = False
iers.conf.auto_max_age = None
iers.conf.iers_degraded_accuracy = 'ignore'
solar_system_ephemeris.set('builtin')

instants = int(sys.argv[1])
site = EarthLocation.from_geodetic(-1.12 * u.deg, 40.42 * u.deg, 1100 * u.m)
times = Time('2026-10-28T18:00:00', scale='utc') + np.arange(instants) * 15 * u.s
frame = AltAz(obstime=times, location=site, pressure=0 * u.hPa)
moon = get_body('moon', times, site).transform_to(frame)
target = SkyCoord(13.2458 * u.deg, 56.6219 * u.deg).transform_to(frame)
separation = target.separation(moon).deg
print(f'{instants} instants, mean separation {separation.mean():.2f}, mean Moon altitude {moon.alt.deg.mean():.2f}')
