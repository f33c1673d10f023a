/**
 * Stars that a moving field draws long, without a guiding log: the advice is to expose for less long, and what the
 * night then truly keeps is compared with the win stated. The truth is calculated from what was drawn.
 */
import { describe, expect, it } from 'vitest';
import { sum } from '../../../src/model/index.js';
import { drawQuickly, straightPath, type DrawnStar } from '../../support/drawing/draw-stars.js';
import { seeded } from '../../support/generator/random.js';
import type { PlannedExposures, Scenario } from '../../support/generator/scenario.js';
import { simulate } from '../../support/generator/simulate.js';
import { some } from '../../support/runs.js';
import { draftOf, expectHeld, gainMs, reported, scenarioOf } from './support.js';

const SEEDS = some([1, 2, 11], 1);
const PX = 96;
const FWHM = 3;
const DIRECTION = 25;
const HOURS = 1.4;
/** Second moments of a Gaussian, and of an even trail along it: L²/12 in units of FWHM² / (8 ln 2). */
const trueRatio = (lengthPx: number): number => Math.sqrt(1 + ((8 * Math.LN2) / 12) * (lengthPx / FWHM) ** 2);
/** The limit of a kept frame, by the rules of the design. */
const LIMIT = 1.25;

function field(): DrawnStar[] {
  const random = seeded(9);
  const within = (): number => 16 + (PX - 32) * random.next();
  const stars: DrawnStar[] = [];
  while (stars.length < 14) {
    const star = { x: within(), y: within(), flux: 30_000 + 60_000 * random.next() };
    if (stars.every(({ x, y }) => Math.hypot(x - star.x, y - star.y) > 14)) stars.push(star);
  }
  return stars;
}

/** A field that moves while the shutter is open; between dithers it goes on, or is back for each frame. */
function moving(pxPerMinute: number, goesOn: boolean): NonNullable<Scenario['painter']> {
  const stars = field();
  const [cos, sin] = [Math.cos((DIRECTION * Math.PI) / 180), Math.sin((DIRECTION * Math.PI) / 180)];
  return ({ cycles }) =>
    ({ beginMs, endMs, number }) => {
      const sinceMs = cycles.filter((c) => c.beginMs < beginMs).at(-1)?.beginMs ?? beginMs - 60_000 * number;
      const gone = goesOn ? (pxPerMinute * (beginMs - sinceMs)) / 60_000 : 0;
      const lengthPx = (pxPerMinute * (endMs - beginMs)) / 60_000;
      const path = straightPath(lengthPx, DIRECTION, 9);
      const shape = { profile: { kind: 'gaussian' as const, fwhm: FWHM }, path };
      return {
        width: PX,
        height: PX,
        pixels: () =>
          drawQuickly({
            width: PX,
            height: PX,
            stars: stars.map((s) => ({ ...s, x: s.x + gone * cos - 10, y: s.y + gone * sin - 10 })),
            shape,
            background: 300,
            electronsPerAdu: 1,
            readNoise: 3,
            seed: number + 1,
          }),
        truth: { fwhm: FWHM, trail: lengthPx, flux: 1, sky: 300 },
      };
    };
}

function night(seed: number, plan: readonly PlannedExposures[], ditherEvery: number): Scenario {
  const calm = scenarioOf(seed);
  const [pilot] = calm.trains;
  if (pilot === undefined) throw new RangeError('no pilot');
  return {
    ...calm,
    trains: [{ ...pilot, plan }],
    end: new Date(Date.parse(calm.begin) + HOURS * 3_600_000).toISOString(),
    ditherEvery,
  };
}

const planned = (seconds: number, count: number): PlannedExposures => ({
  target: 'NGC 281',
  filter: 'L',
  seconds,
  count,
});

const keptMs =
  (pxPerMinute: number) =>
  (s: Scenario): number =>
    sum(
      simulate(s)
        .frames.map((f) => f.endMs - f.beginMs)
        .filter((ms) => trueRatio((pxPerMinute * ms) / 60_000) <= LIMIT),
    );

const isThere = (path: string): boolean => !path.startsWith('logs/');
const advisedSeconds = (advice = ''): number => {
  const [, minutes = '0', seconds = '0'] = /no longer than (?:(\d+) min)? ?(?:(\d+) s)?/.exec(advice) ?? [];
  return 60 * Number(minutes) + Number(seconds);
};

describe('a field that moves while the shutter is open', () => {
  it.each(SEEDS)('wins what short subs would have kept, where long ones trail: random night %i', async (seed) => {
    const pxPerMinute = 1 + 0.04 * seed;
    const plan = [planned(60, 6), planned(240, 6)];
    const before = { ...night(seed, plan, 6), name: `trails-${seed}`, painter: moving(pxPerMinute, false) };
    const draft = draftOf(await reported(before, { stars: 'full', replay: null, isThere }), 'trailed-stars', /heron/);
    const seconds = advisedSeconds(draft?.advice);
    expect(seconds).toBeGreaterThanOrEqual(30);
    const after = night(seed, [planned(60, 6), planned(seconds, (6 * 240) / seconds)], 6);
    expectHeld(draft?.winMs ?? NaN, gainMs(before, after, keptMs(pxPerMinute)), `win of: ${draft?.title}`);
  });

  it.each(SEEDS)(
    'names the subs that stay round where all frames trail, by its drift: random night %i',
    async (seed) => {
      const pxPerMinute = 1 + 0.04 * seed;
      const plan = [planned(240, 999)];
      const before = { ...night(seed, plan, 6), name: `drifts-${seed}`, painter: moving(pxPerMinute, true) };
      const draft = draftOf(await reported(before, { stars: 'full', replay: null, isThere }), 'trailed-stars', /heron/);
      expect(draft?.evidence.join('; ')).toContain('the field moved on the same way from frame to frame');
      // Verdicts compare frames with each other: all count as kept, and no minute is won.
      expect([draft?.costMs, draft?.winMs]).toEqual([0, undefined]);
      const seconds = advisedSeconds(draft?.advice);
      expect(trueRatio((pxPerMinute * seconds) / 60)).toBeLessThanOrEqual(LIMIT);
      expect(trueRatio((pxPerMinute * (seconds + 60)) / 60)).toBeGreaterThan(LIMIT);
    },
  );
});
