import { describe, expect, it } from 'vitest';
import { ditherSpread, measuredSettling, movesSeen, runsOf, trainDrift } from '../../../src/stars/pair/index.js';
import { randomOf } from '../registration/drawn-sky.js';
import { aimsOfPlaces, movesBetween } from './drawn-night.js';

function scattered(count: number, seed: number, widthPx = 20) {
  const random = randomOf(seed);
  return Array.from({ length: count }, () => ({ x: (random() - 0.5) * widthPx, y: (random() - 0.5) * widthPx }));
}

const asked = (count: number, every: number) => movesBetween(count, every).map((atMs) => ({ atMs, askedPx: 5 }));

describe('dithers as they came out', () => {
  it('stand as places and steps, with what was asked beside what was got', () => {
    const places = [
      { x: 0, y: 0 },
      { x: 3, y: 4 },
      { x: 3, y: -8 },
    ];
    const spread = ditherSpread(aimsOfPlaces(places, { every: 4 }), asked(3, 4));
    expect(spread?.places.map((p) => [p.x, p.y, p.frames])).toEqual([
      [0, 0, 4],
      [3, 4, 4],
      [3, -8, 4],
    ]);
    expect(spread?.steps.map((s) => [s.askedPx, s.gotPx])).toEqual([
      [5, 5],
      [5, 12],
    ]);
    expect(spread?.nearestPx).toEqual([5, 5, Math.hypot(3, 8)]);
  });

  it('that come back to within a pixel are named in pairs', () => {
    const places = [...scattered(6, 3, 60), { x: 100, y: 100 }, { x: -50, y: 80 }, { x: 100.4, y: 100.5 }];
    const spread = ditherSpread(aimsOfPlaces(places), asked(9, 1));
    expect(spread?.repeats.map((r) => [r.first, r.second])).toEqual([[6, 8]]);
    expect(spread?.repeats[0]?.apartPx).toBeCloseTo(Math.hypot(0.4, 0.5), 6);
  });

  it('scattered around a place do not walk: the next step turns back, by half on average', () => {
    const spread = ditherSpread(aimsOfPlaces(scattered(80, 5)), asked(80, 1));
    expect(spread?.oneWay.isWalking).toBe(false);
    // Steps between independent places: E[s1·s2] = −σ², E[s²] = 2σ² (derived here); the mean cosine is near −0.5.
    expect(spread?.oneWay.nextStepCosine).toBeLessThan(-0.3);
    // A uniform spread of 20 px has the median absolute deviation 5, times 1.4826.
    expect(spread?.scatterPx.x).toBeGreaterThan(5);
    expect(spread?.scatterPx.x).toBeLessThan(9.5);
  });

  it('that all go one way, as drift does, walk', () => {
    const places = scattered(40, 6, 2).map((p, i) => ({ x: p.x + i * 0.8, y: p.y - i * 0.6 }));
    const spread = ditherSpread(aimsOfPlaces(places), asked(40, 1));
    expect(spread?.oneWay.isWalking).toBe(true);
    expect(spread?.oneWay.trendPx).toBeCloseTo(39, -0.5);
    expect(spread?.oneWay.trendDeg).toBeCloseTo(360 - 36.87, -0.5);
    // With few places a walk may be chance.
    const march = scattered(8, 6, 0.1).map((p, i) => ({ x: p.x + i, y: p.y }));
    expect(ditherSpread(aimsOfPlaces(march), asked(8, 1))?.oneWay.isWalking).toBe(true);
    expect(ditherSpread(aimsOfPlaces(march.slice(0, 7)), asked(7, 1))?.oneWay.isWalking).toBe(false);
  });

  it('each from the last place at random seem to walk by chance, and hardly ever are said to', () => {
    const walk = (seed: number, drift: number) => {
      const random = randomOf(seed);
      let [x, y] = [0, 0];
      const places = Array.from({ length: 24 }, () => {
        const angle = 2 * Math.PI * random();
        [x, y] = [x + 4 * Math.cos(angle) + drift, y + 4 * Math.sin(angle)];
        return { x, y };
      });
      return ditherSpread(aimsOfPlaces(places), asked(24, 1))?.oneWay.isWalking === true;
    };
    const seeds = Array.from({ length: 200 }, (_, i) => 1000 + i);
    // The chance of a sum so long is e⁻⁶; where the steps happen to turn back, a trend may still be called one.
    expect(seeds.filter((seed) => walk(seed, 0)).length).toBeLessThan(0.05 * seeds.length);
    expect(seeds.filter((seed) => walk(seed, 4)).length).toBeGreaterThan(0.95 * seeds.length);
  });

  it('are not judged by fewer than three places', () => {
    expect(ditherSpread([], [])).toBeNull();
    expect(ditherSpread(aimsOfPlaces(scattered(2, 1)), asked(2, 1))).toBeNull();
  });

  it('are seen in the stars where no log states them', () => {
    const aims = aimsOfPlaces(scattered(6, 9, 60), { every: 3, noisePx: 0.05 });
    expect(runsOf(aims, movesSeen(aims)).map((r) => r.length)).toEqual([3, 3, 3, 3, 3, 3]);
  });
});

describe('measured settling', () => {
  it('finds a first frame that is off its run, and larger', () => {
    const aims = aimsOfPlaces(scattered(10, 2), { every: 5, noisePx: 0.05 }).map((a) =>
      a.key.endsWith('-0') ? { ...a, x: a.x + 0.8, fwhm: 3.12, elongation: 1.26 } : a,
    );
    const settling = measuredSettling(runsOf(aims, movesBetween(10, 5)));
    expect(settling?.dithers).toBe(9);
    expect(settling?.firstAwayPx).toBeCloseTo(0.8, 1);
    expect(settling?.othersAwayPx).toBeLessThan(0.15);
    expect(settling?.fwhmRatio).toBeCloseTo(1.2, 6);
    expect(settling?.elongationRatio).toBeCloseTo(1.2, 6);
  });

  it('is not measured if every frame follows a dither', () => {
    const aims = aimsOfPlaces(scattered(10, 2));
    expect(measuredSettling(runsOf(aims, movesBetween(10, 1)))).toBeNull();
  });

  it('has no ratio where sizes were not measured', () => {
    const aims = aimsOfPlaces(scattered(4, 2), { every: 3 }).map((a) => ({ ...a, fwhm: null, elongation: null }));
    expect(measuredSettling(runsOf(aims, movesBetween(4, 3)))).toMatchObject({
      fwhmRatio: null,
      elongationRatio: null,
    });
  });
});

describe('a train that drifts', () => {
  it('is measured between dithers, which are taken out', () => {
    const aims = aimsOfPlaces(scattered(20, 4), { every: 6, noisePx: 0.03 }).map((a, i) => ({
      ...a,
      x: a.x + (i * 180 * 2) / 3600,
    }));
    const drift = trainDrift(aims, movesBetween(20, 6), 1.3);
    expect(drift.by).toBe('between-dithers');
    expect(drift.sides[0]?.xPxPerHour).toBeCloseTo(2, 1);
    expect(drift.sides[0]?.arcsecPerHour).toBeCloseTo(2.6, 0);
    expect(drift.hours.length).toBe(6);
  });

  it('dithered at every frame is measured through the dithers, with their scatter as uncertainty', () => {
    const aims = aimsOfPlaces(scattered(60, 4).map((p, i) => ({ x: p.x + i, y: p.y })));
    const drift = trainDrift(aims, movesBetween(60, 1), 1.3);
    expect(drift.by).toBe('through-dithers');
    const side = drift.sides[0];
    expect(side && Math.abs(side.xPxPerHour - 20) < 4 * side.uncertaintyPxPerHour).toBe(true);
    expect(side?.uncertaintyPxPerHour).toBeGreaterThan(0.3);
  });

  it('has no rate from no frames', () => {
    expect(trainDrift([], [], 1)).toEqual({ by: 'through-dithers', sides: [], hours: [] });
  });
});
