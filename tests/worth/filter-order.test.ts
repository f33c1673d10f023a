import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FilterOrder, JudgedFrame } from '../../src/model/index.js';
import { light, NOISE_CONFIG, skyAt, trainConfig, UNDER_MOON, weigh } from './support.js';
import { runs } from '../support/runs.js';

const TRAIN = { id: 'heron', role: 'pilot', apertureMm: 80, pixelScaleArcsec: 1.616 } as const;

function ordersOf(frames: readonly JudgedFrame[], config = NOISE_CONFIG): readonly FilterOrder[] {
  const names = [...new Set(frames.map((f) => f.filter ?? ''))];
  const nothing = { taken: 0, kept: 0, doubtful: 0, lost: 0 };
  const totals = names.map((filter) => ({ target: 'NGC 281', filter, train: 'heron', frames: nothing, ms: nothing }));
  return (
    weigh({
      elevationM: 1100,
      trains: [TRAIN],
      cameras: [config],
      frames,
      totals,
      calibration: [],
      curves: [],
    }).worth?.orders ?? []
  );
}

const inDark = (filter: string, seconds = 300) => light({ filter, seconds, sky: skyAt(60) });
const inMoon = (filter: string, seconds = 300) => light({ filter, seconds, sky: skyAt(60, UNDER_MOON) });
const place = (order: FilterOrder | undefined, filter: string) => order?.filters.find((f) => f.filter === filter);

describe('the order of filters', () => {
  it('that loses least puts the narrow band under the Moon and the broad band in the dark', () => {
    const [order] = ordersOf([inDark('Ha'), inDark('Ha'), inMoon('L'), inMoon('L')]);
    expect(place(order, 'L')).toMatchObject({ bestBrighteningMag: 0, bestLossMs: 0 });
    expect(place(order, 'Ha')?.bestBrighteningMag).toBeGreaterThan(1);
    expect(order?.bestLossMs).toBeLessThan(order?.lossMs ?? NaN);
    expect(place(order, 'L')?.bestEffectiveMs).toBeGreaterThan(place(order, 'L')?.effectiveMs ?? NaN);
  });

  it('is left as it was where it was the best already', () => {
    const [order] = ordersOf([inDark('L'), inDark('L'), inMoon('Ha'), inMoon('Ha')]);
    expect(order?.bestLossMs).toBeCloseTo(order?.lossMs ?? NaN, 6);
    expect(place(order, 'Ha')?.bestBrighteningMag).toBe(place(order, 'Ha')?.brighteningMag);
  });

  it('gives every filter the time it had, whatever the length of its subs', () => {
    const [order] = ordersOf([
      inDark('Ha', 300),
      inDark('OIII', 240),
      inMoon('L', 120),
      inMoon('L', 120),
      inMoon('B', 180),
    ]);
    expect(order?.filters.map((f) => [f.filter, f.exposureMs])).toEqual([
      ['B', 180_000],
      ['Ha', 300_000],
      ['L', 240_000],
      ['OIII', 240_000],
    ]);
  });

  it('costs nothing and wins nothing with the Moon down', () => {
    const [order] = ordersOf([inDark('Ha'), inDark('L')]);
    expect(order).toMatchObject({ lossMs: 0, bestLossMs: 0 });
  });

  it('never loses more than the night did', () => {
    const frame = fc.record({
      filter: fc.constantFrom('L', 'B', 'Ha', 'OIII'),
      altitude: fc.double({ min: 26, max: 89, noNaN: true }),
      moon: fc.double({ min: -10, max: 70, noNaN: true }),
    });
    fc.assert(
      fc.property(
        fc.array(frame, { minLength: 2, maxLength: 12 }),
        fc.constantFrom(NOISE_CONFIG, trainConfig()),
        (facts, config) => {
          const orders = ordersOf(
            facts.map(({ filter, altitude, moon }) =>
              light({ filter, sky: skyAt(altitude, { ...UNDER_MOON, moonAltitudeDeg: moon }) }),
            ),
            config,
          );
          for (const { lossMs, bestLossMs } of orders) expect(bestLossMs).toBeLessThanOrEqual(lossMs + 1);
        },
      ),
      runs(60),
    );
  });

  it('is not asked about a single filter, nor across trains, nor of frames that were lost', () => {
    expect(ordersOf([inDark('Ha'), inMoon('Ha')])).toEqual([]);
    expect(ordersOf([inDark('Ha'), light({ filter: 'L', train: 'wren' })])).toEqual([]);
    expect(ordersOf([inDark('Ha'), light({ filter: 'L', verdict: 'lost' })])).toEqual([]);
  });

  it('tells filters apart by extinction alone where the noise is unknown', () => {
    const [order] = ordersOf([inDark('Ha'), inMoon('B')], trainConfig());
    expect(place(order, 'B')).toMatchObject({ noise: 'sky-limited', bestBrighteningMag: 0 });
  });
});
