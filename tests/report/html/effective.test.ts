import { describe, expect, it } from 'vitest';
import { weighedTotals, type Night } from '../../../src/model/index.js';
import { viewContext } from '../../../src/report/html/view/context.js';
import { effectiveView } from '../../../src/report/html/view/effective/index.js';
import type { Table } from '../../../src/report/html/view/table.js';
import { totalsTable } from '../../../src/report/html/view/totals.js';
import { NIGHT_NAMES } from '../../support/nights.js';
import { worthyNight } from '../../support/worthy-night.js';

const view = (night: Night) => effectiveView(viewContext(night));
const columnOf = (table: Table | null, label: string): string[] => {
  const at = table?.columns.findIndex((c) => c.label === label) ?? -1;
  return (table?.rows ?? []).map((row) => row.cells[at]?.text ?? 'no such column');
};

describe('the section on effective integration', () => {
  const night = worthyNight('twin-night');

  it('has a row for each target, filter and train, and no sums', () => {
    const { totals } = view(night);
    expect(totals?.rows).toHaveLength(weighedTotals(night).length);
    expect(totals?.foot).toBeUndefined();
    for (const row of totals?.rows ?? []) expect(row.cells).toHaveLength(totals?.columns.length ?? 0);
  });

  it('says what the figures are reckoned from', () => {
    expect(columnOf(view(night).totals, 'From')).toContain('sky model, clear air, read noise');
    expect(view(night).basis).toContain(
      'Dark sky at the zenith: 21.0 mag per square arcsecond, assumed; give darkSky in the rig file.',
    );
    expect(view(night).basis.join(' ')).toContain('the air is taken to be clear');
    const alone = view(worthyNight('twin-night', false));
    expect(new Set(columnOf(alone.totals, 'From'))).toEqual(new Set(['sky model, clear air, sky noise alone']));
    expect(alone.basis.join(' ')).toMatch(
      /heron.*the only noise; to include read noise, give camera\.readNoise.*filters\.Ha\.width/,
    );
  });

  it('tells measures that were used from measures that were not, and why', () => {
    const noted: Night = {
      ...night,
      worth: night.worth && {
        ...night.worth,
        measures: [
          { train: 'heron', filter: 'Ha', measure: 'level', used: true, frames: 20, how: 'against the median' },
          { train: 'heron', filter: 'OIII', measure: 'level', used: true, frames: 1, how: 'against the median' },
          { train: 'wren', filter: 'L', measure: 'star-count', used: false, frames: 1, how: 'a count is no flux' },
        ],
      },
    };
    expect(view(noted).basis).toContain('heron Ha OIII: background levels of 21 frames were used, against the median.');
    expect(view(noted).basis).toContain('wren L: star counts of 1 frame were not used, a count is no flux.');
  });

  it('says whose dark sky is this night’s own, and that its hours are of no other kind', () => {
    const against = (from: 'night' | 'rig-file'): Night => ({
      ...night,
      worth: night.worth && {
        ...night.worth,
        totals: Object.fromEntries(
          Object.entries(night.worth.totals).map(([key, worth]) => [
            key,
            { ...worth, zenith: { electronsPerSecond: 0.0213, from } },
          ]),
        ),
      },
    });
    const said = view(against('night')).basis.join(' ');
    expect(said).toMatch(/But the dark sky of heron \w+ 0\.021.* is this night’s own.*zenithSky in the rig file/);
    expect(view(against('rig-file')).basis.join(' ')).not.toContain('night’s own');
  });

  it('names the limits: a model for a clear sky, not photometry', () => {
    const limits = view(night).limits.join(' ');
    expect(limits).toContain('not photometry');
    expect(limits).toContain('±0.3 mag');
    expect(limits).toContain('never added up');
  });

  it('compares orders of filters only where the Moon took something', () => {
    expect(view(night).orders?.rows.length).toBeGreaterThan(0);
    const moonless: Night = {
      ...night,
      worth: night.worth && {
        ...night.worth,
        orders: night.worth.orders.map((o) => ({ ...o, lossMs: 0, bestLossMs: 0 })),
      },
    };
    expect(view(moonless).orders).toBeNull();
  });

  it('is nothing but a reason without a site', () => {
    expect(view(worthyNight('no-site'))).toMatchObject({ totals: null, missing: expect.stringContaining('site') });
  });

  it.each(NIGHT_NAMES)('has no hole in it: %s', (name) => {
    expect(JSON.stringify(view(worthyNight(name)))).not.toMatch(/NaN|undefined|Infinity/);
  });
});

describe('the table of integration', () => {
  it('has the effective time of each row, and leaves it out of every sum', () => {
    const night = worthyNight('twin-night');
    const table = totalsTable(viewContext(night));
    const at = table.columns.findIndex((c) => c.label === 'effective');
    for (const row of table.rows) expect(row.cells[at]?.text).toMatch(/\d/);
    for (const row of table.foot ?? []) {
      expect(row.cells).toHaveLength(table.columns.length);
      expect(row.cells[at]?.text).toBe('');
    }
  });
});
