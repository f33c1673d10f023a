import { describe, expect, it } from 'vitest';
import { durationMs, hull, type Night } from '../../../src/model/index.js';
import { skySpan, workSpan } from '../../../src/report/charts/sky-span.js';
import { namedNight } from '../../support/nights.js';

const HOUR = 3_600_000;

/** The night with the lights of its first hours alone. */
function shortened(night: Night, hours: number): Night {
  const lights = night.accounts.lights.filter(
    ({ exposure }) => exposure.endMs < night.sky.window.startMs + hours * HOUR,
  );
  return { ...night, accounts: { ...night.accounts, lights } };
}

const imaged = (night: Night) => hull(night.accounts.lights.map(({ exposure }) => exposure)) ?? night.sky.window;

describe('the hours that charts show', () => {
  const whole = namedNight('twin-night');
  const short = shortened(whole, 2);

  it('fit a short session in a long night: it fills nine tenths of the trains’ charts, and the sky’s an hour about it', () => {
    expect(durationMs(whole.sky.window)).toBeGreaterThan(10 * HOUR);
    const session = imaged(short);
    expect(durationMs(session) / durationMs(workSpan(short))).toBeGreaterThan(0.9);
    expect(durationMs(skySpan(short))).toBeLessThanOrEqual(durationMs(session) + 2 * HOUR);
    for (const span of [workSpan(short), skySpan(short)]) {
      expect(span.startMs).toBeLessThanOrEqual(session.startMs);
      expect(span.endMs).toBeGreaterThanOrEqual(session.endMs);
    }
  });

  it('are the whole night where nothing was imaged, or where no curve reaches what was', () => {
    const empty = namedNight('no-frames');
    expect(workSpan(empty).startMs).toBeLessThan(empty.sky.window.startMs);
    const longer = whole.sky.curves.map(({ points, ...curve }) => ({
      ...curve,
      points: points.map((p, i) => (i === 0 ? { ...p, atMs: empty.sky.window.startMs - HOUR / 4 } : p)),
    }));
    const planned = { ...empty, sky: { ...empty.sky, curves: longer } };
    expect(durationMs(skySpan(planned))).toBeGreaterThan(durationMs(empty.sky.window));
    const curveless = { ...short, sky: { ...short.sky, curves: [] } };
    expect(durationMs(skySpan(curveless))).toBeGreaterThanOrEqual(durationMs(short.sky.window));
  });
});
