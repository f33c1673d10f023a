import { describe, expect, test } from 'vitest';
import { durationMs, interval } from '../../src/model/index.js';
import { makeSkyObserver, nightSpan, skyNight, targetCurve } from '../../src/sky/index.js';
import { inventedSite, M_33, ms, NGC_281 } from './invented-site.js';

const MINUTE = 60_000;
const site = inventedSite();
const span = nightSpan('2026-10-14', site.timezone);
const window = skyNight(site, span, 'nautical').window.span;

describe('the points of a curve', () => {
  test('go over the whole night every five minutes', () => {
    const { points, target } = targetCurve(site, NGC_281, span, window);
    expect(target).toBe('NGC 281');
    expect(points.map((point) => point.atMs)).toEqual(
      Array.from({ length: 24 * 12 + 1 }, (_, i) => span.startMs + i * 5 * MINUTE),
    );
  });

  test('stand at the step asked for and do not go beyond the end', () => {
    const { points } = targetCurve(site, NGC_281, interval(0, 100 * MINUTE), window, 30 * MINUTE);
    expect(points.map((point) => point.atMs / MINUTE)).toEqual([0, 30, 60, 90]);
  });

  test('are those of the observer, whose moments several curves share', () => {
    const observer = makeSkyObserver(site);
    const [first, second] = [NGC_281, M_33].map((target) => targetCurve(observer, target, span, window));
    expect(first).toEqual(targetCurve(site, NGC_281, span, window));
    expect(second?.points[100]).toEqual(observer.position(M_33, second?.points[100]?.atMs ?? NaN));
  });

  test.each([0, -1, 0.5, NaN])('are refused at a step of %d', (step) => {
    expect(() => targetCurve(site, NGC_281, span, window, step)).toThrow(/whole milliseconds/);
  });
});

describe('the time a target is up', () => {
  test('begins and ends where the altitude meets the limit', () => {
    const observer = makeSkyObserver(site);
    const { up } = targetCurve(observer, M_33, span, span);
    expect(up).toHaveLength(1);
    for (const stretch of up) {
      expect(observer.clearance(M_33, stretch.startMs)).toBeCloseTo(0, 5);
      expect(observer.clearance(M_33, stretch.endMs)).toBeCloseTo(0, 5);
      expect(observer.clearance(M_33, stretch.startMs + MINUTE)).toBeGreaterThan(0);
      expect(observer.clearance(M_33, stretch.endMs + MINUTE)).toBeLessThan(0);
    }
  });

  test('is counted in the window only', () => {
    const { up } = targetCurve(site, NGC_281, span, window);
    for (const { startMs, endMs } of up) {
      expect(startMs).toBeGreaterThanOrEqual(window.startMs);
      expect(endMs).toBeLessThanOrEqual(window.endMs);
    }
  });

  test('is all of the window for a target around the pole and none of it for one that never rises', () => {
    const low = inventedSite({ minimumAltitudeDeg: 0 });
    expect(targetCurve(low, { ...NGC_281, decDeg: 89 }, span, window).up).toEqual([window]);
    expect(targetCurve(low, { ...NGC_281, decDeg: -60 }, span, window).up).toEqual([]);
  });

  test('is parted by a tree in front of it', () => {
    const observer = makeSkyObserver(site);
    const at = ms('2026-10-14T22:00:00Z');
    const azimuth = observer.position(M_33, at).azimuthDeg;
    const tree = inventedSite({
      horizon: [
        [azimuth - 2, 0],
        [azimuth - 2, 85],
        [azimuth + 2, 85],
        [azimuth + 2, 0],
      ],
    });
    const open = targetCurve(site, M_33, span, window).up;
    const parted = targetCurve(tree, M_33, span, window).up;
    expect(open).toHaveLength(1);
    expect(parted).toHaveLength(2);
    expect(parted[0]?.startMs).toBe(open[0]?.startMs);
    expect(parted[0]?.endMs).toBeLessThan(at);
    expect(parted[1]?.startMs).toBeGreaterThan(at);
    expect(parted[1]?.endMs).toBe(open[0]?.endMs);
  });

  test('grows with refraction: a target on a flat horizon is up before it truly is', () => {
    const flat = inventedSite({ minimumAltitudeDeg: 0, elevationM: 0 });
    const observer = makeSkyObserver(flat);
    const up = targetCurve(observer, M_33, span, span).up;
    const [first] = up;
    expect(durationMs(first ?? interval(0, 0))).toBeGreaterThan(0);
    const edges = up
      .flatMap(({ startMs, endMs }) => [startMs, endMs])
      .filter((edge) => edge > span.startMs && edge < span.endMs);
    expect(edges.length).toBeGreaterThan(0);
    for (const edge of edges) expect(observer.at(edge).direction(M_33).altitudeDeg).toBeCloseTo(-0.57, 1);
  });
});
