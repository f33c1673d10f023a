import { describe, expect, it } from 'vitest';
import { moonlight } from '../../../src/report/charts/moonlight.js';
import { NIGHT_NAMES, namedNight } from '../../support/nights.js';
import { drawn, heights, missingOf, outline } from '../../support/charts.js';
import { worthyNight } from '../../support/worthy-night.js';
import { weighedLights } from '../../../src/model/index.js';

describe('the chart of moonlight', () => {
  const night = worthyNight('twin-night');

  it('shows a curve in V for each target and a stroke for each exposure, in its filter', () => {
    const sets = outline(drawn(moonlight, night));
    expect(Object.keys(sets).slice(0, 2)).toEqual(['IC 1396, V', 'NGC 281, V']);
    const frames = weighedLights(night).filter((f) => f.train === 'heron' && f.filter === 'Ha');
    expect(sets['heron Ha']).toBe(3 * frames.length);
  });

  it('is 0 after moonset', () => {
    const last = heights(drawn(moonlight, night), 'NGC 281, V').at(-1);
    expect(last).toBe(0);
    expect(Math.max(...heights(drawn(moonlight, night), 'IC 1396, V'))).toBeGreaterThan(0.5);
  });

  it('says how much the sky brightened while each target was imaged', () => {
    expect(drawn(moonlight, night).altText).toMatch(/IC 1396: \d\.\d to \d\.\d mag while imaged/);
  });

  it('needs a site, and a Moon above the horizon', () => {
    expect(missingOf(moonlight, worthyNight('no-site'))).toBe('the site is not known');
    expect(missingOf(moonlight, namedNight('twin-night'))).toBe('the brightness of the sky was not computed');
    const placeless = { ...night, worth: night.worth && { ...night.worth, moonlight: [] } };
    expect(missingOf(moonlight, placeless)).toBe('no target’s coordinates are known');
    const moonless = {
      ...night,
      worth: night.worth && {
        ...night.worth,
        moonlight: night.worth.moonlight.map((one) => ({
          ...one,
          points: one.points.map((p) => ({ ...p, brighteningMag: 0 })),
        })),
      },
    };
    expect(missingOf(moonlight, moonless)).toContain('less than 0.1 mag');
  });

  it.each(NIGHT_NAMES)('is drawn without a hole, or says why not: %s', (name) => {
    const named = worthyNight(name);
    const missing = missingOf(moonlight, named);
    if (missing !== '') expect(missing).toMatch(/\w/);
    else expect(drawn(moonlight, named).altText).not.toMatch(/NaN|undefined|Infinity/);
  });
});
