import { describe, expect, it } from 'vitest';
import type { NightSummary, PairSummary } from '../../src/model/index.js';
import { progressOf } from '../../src/progress/index.js';
import { pairTrends } from '../../src/progress/touched.js';
import { summarise } from '../../src/record/archive/summary.js';
import { NO_BOOK } from '../../src/config/index.js';
import { TRENDS } from '../../src/report/progress/charts/trends.js';
import { toRecord } from '../../src/record/index.js';
import { namedNight } from '../support/nights.js';
import { pairOf, pointed } from '../support/pointing.js';
import { hoursOf, summaryOf } from '../support/records.js';

const PAIR: PairSummary = {
  trains: ['heron', 'wren'],
  offsetArcsec: 240,
  rotationDeg: 2.4,
  scaleRatio: 1.25,
  flexureArcsecPerHour: 3.1,
};

const night = (date: string, ...pairs: PairSummary[]): NightSummary => ({
  ...summaryOf(date, [hoursOf('NGC 281', 'Ha', 'heron', 1), hoursOf('NGC 281', 'Ha', 'wren', 1)]),
  pairs,
});

const touched = (nights: readonly NightSummary[]) => pairTrends(nights).map((own) => own.flatMap((p) => p.touched));

describe('something that was touched', () => {
  it('shows as a step in rotation, offset or scale against the night before on which the pair was measured', () => {
    expect(
      touched([
        night('2026-10-01', PAIR),
        night('2026-10-02', { ...PAIR, rotationDeg: 2.5, offsetArcsec: 270 }),
        night('2026-10-03'),
        night('2026-10-04', { ...PAIR, rotationDeg: 3.7, offsetArcsec: 450 }),
        night('2026-10-05', { ...PAIR, rotationDeg: 3.7, offsetArcsec: 450, scaleRatio: 1.26 }),
      ]),
    ).toEqual([[], [], [], ['turned by 1.2°', 'centres moved by 3.0′'], ['scale changed by 0.8 %']]);
  });

  it('is no camera that the flip turned, nor a turn across ±90°', () => {
    expect(
      touched([
        night('2026-10-01', { ...PAIR, rotationDeg: 89.9 }),
        night('2026-10-02', { ...PAIR, rotationDeg: -90 + 0.1 }),
      ]),
    ).toEqual([[], []]);
  });

  it('is marked on the trends of the pair', () => {
    const progress = progressOf(
      [night('2026-10-01', PAIR), night('2026-10-02', { ...PAIR, rotationDeg: 7 })],
      NO_BOOK,
      () => null,
    );
    const rotation = TRENDS.find(({ id }) => id === 'pair-rotation');
    expect(rotation?.series(progress)).toEqual([
      {
        label: 'heron – wren',
        short: 'wren',
        train: 'wren',
        values: [
          { date: '2026-10-01', value: 2.4 },
          { date: '2026-10-02', value: 7 },
        ],
      },
    ]);
    expect(rotation?.marks?.(progress)).toEqual([{ date: '2026-10-02', what: 'heron – wren turned by 4.6°' }]);
  });
});

describe('a record’s pairs', () => {
  it('are summed up by the target with most stars, a half turn taken out', () => {
    const made = pointed(namedNight('twin-night'), {
      pairs: [pairOf({ turnDeg: 10 }, { matched: 20, target: 'M 33' }), pairOf({ turnDeg: -178 }, { matched: 90 })],
    });
    const record = toRecord(made, '0.0.0', false);
    const [pair, ...others] = summarise({ file: 'a.json', record } as Parameters<typeof summarise>[0]).pairs;
    expect(others).toEqual([]);
    expect(pair?.trains).toEqual(['heron', 'wren']);
    expect(pair?.rotationDeg).toBeCloseTo(2, 9);
    expect(pair?.flexureArcsecPerHour).toBeCloseTo(2.1 * 1.2926, 9);
  });

  it('are none in records of before', () => {
    const record = { ...toRecord(namedNight('twin-night'), '0.0.0', false), pairs: undefined };
    expect(summarise({ file: 'a.json', record } as Parameters<typeof summarise>[0]).pairs).toEqual([]);
  });
});
