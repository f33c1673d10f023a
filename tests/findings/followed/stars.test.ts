/**
 * Stars that grew, and refocuses that came late: what point sources lost, and what refocuses in time win of it. The
 * simulator knows every frame's stars.
 */
import { describe, expect, it } from 'vitest';
import { median, sum } from '../../../src/model/index.js';
import { drawQuickly, scatter } from '../../support/drawing/draw-stars.js';
import { SMALL_PX } from '../../support/generator/exposures.js';
import { seeded } from '../../support/generator/random.js';
import type { Scenario, ScenarioTrain } from '../../support/generator/scenario.js';
import { simulate } from '../../support/generator/simulate.js';
import { trueVerdict } from '../../support/generator/true-verdict.js';
import { draftAlone, draftOf, expectHeld, gainMs, MINUTE, reported, scenarioOf } from './support.js';
import { some } from '../../support/runs.js';

const LIMIT = 0.1;
/** At the pole: air mass does not change, and with it what seeing does to stars. */
const POLAR = { name: 'Pole Field', ra: '02:00:00', dec: '+89:45:00', raDeg: 30, decDeg: 89.75 };

/** One train focuses at its first frame, or never; its stars grow by so much an hour. */
function growing(seed: number, id: string, train: Partial<ScenarioTrain>): Scenario {
  const calm = scenarioOf(seed);
  return {
    ...calm,
    targets: [POLAR],
    habits: { refocusTogether: id === calm.trains[0]?.id },
    trains: calm.trains.map((t) => ({
      ...t,
      plan: t.plan.map((p) => ({ ...p, target: POLAR.name })),
      ...(t.id === id ? train : { focus: { growthPerHour: 0, unfocusedPx: 0 } }),
    })),
  };
}

/** A refocus whenever the train's stars have grown by the limit. */
function inTime(s: Scenario, id: string, growthPerHour: number): Scenario {
  const begins = simulate(s).frames.flatMap((f) => (f.train === id ? [f.beginMs] : []));
  const periodMs = ((begins.at(-1) ?? NaN) - (begins[0] ?? NaN)) / (begins.length - 1);
  const step = Math.max(1, Math.floor((LIMIT * SMALL_PX * 60 * MINUTE) / growthPerHour / periodMs));
  const refocusAfter = begins.map((_, i) => i).filter((i) => i % step === 0);
  return { ...s, trains: s.trains.map((t) => (t.id === id ? { ...t, refocusAfter } : t)) };
}

/** Kept exposure as it is worth to point sources beside that of a focused train, ms. */
function pointMs(s: Scenario): number {
  return sum(s.trains.map(({ id }) => pointOf(s, id)));
}

/** That of one train. */
function pointOf(s: Scenario, id: string): number {
  const simulation = simulate(s);
  return sum(
    simulation.frames
      .filter((f) => f.train === id && trueVerdict(f, simulation, 'not-seen').verdict === 'kept')
      .map((f) => (f.endMs - f.beginMs) * (SMALL_PX / f.starSize) ** 2),
  );
}

/** What frames swollen beyond the limit lost, ms. */
function lostToSizeMs(s: Scenario, id: string): number {
  const simulation = simulate(s);
  return sum(
    simulation.frames
      .filter((f) => f.train === id && f.starSize > SMALL_PX * (1 + LIMIT))
      .filter((f) => trueVerdict(f, simulation, 'not-seen').verdict === 'kept')
      .map((f) => (f.endMs - f.beginMs) * (1 - (SMALL_PX / f.starSize) ** 2)),
  );
}

const SEEDS = some([1, 2, 11], 1);
const TRAINS = some(['heron', 'wren'], 1);

describe.each(TRAINS)('stars of %s that grow all night', (id) => {
  it.each(SEEDS)(
    'win what refocuses in time would have won, and cost what they lost: random night %i',
    async (seed) => {
      const rate = 0.07 + 0.005 * seed;
      const before = {
        ...growing(seed, id, { refocusAfter: [0], focus: { growthPerHour: rate, unfocusedPx: 0 } }),
        name: `grown-${id}-${seed}`,
      };
      const draft = await draftAlone(before, 'refocus-too-seldom', new RegExp(`^${id}’s stars grew`));
      expect(draft?.winMs).toBeGreaterThan(0);
      expectHeld(draft?.winMs ?? NaN, gainMs(before, inTime(before, id, rate), pointMs), `win of: ${draft?.title}`);
      expectHeld(draft?.costMs ?? NaN, lostToSizeMs(before, id), `cost of: ${draft?.title}`);
    },
  );
});

/** Sixteen stars of the frame's size at the places of a grid, and nothing else. */
const DRAWN_PX = 128;
/** Drawn so many times as large: of small stars the pixel is half the width. */
const WIDE = 2;
const FIELD = scatter(seeded(7), { width: DRAWN_PX, height: DRAWN_PX }, 25, { from: 30_000, to: 90_000 });

function drawnStars(): NonNullable<Scenario['painter']> {
  return () => (frame) => ({
    width: DRAWN_PX,
    height: DRAWN_PX,
    pixels: () =>
      drawQuickly({
        width: DRAWN_PX,
        height: DRAWN_PX,
        stars: FIELD,
        shape: { profile: { kind: 'gaussian', fwhm: WIDE * frame.starSize } },
        background: 300,
        electronsPerAdu: 1,
        readNoise: 3,
        seed: frame.number + 1,
      }),
    truth: { fwhm: WIDE * frame.starSize, trail: 0, flux: 1, sky: 300 },
  });
}

/** The same where the pixels judge: a frame 1.3 times as large as the usual is not kept, by the rules of the design. */
function judgedPointMs(id: string): (s: Scenario) => number {
  return (s) => {
    const simulation = simulate(s);
    const own = simulation.frames.filter((f) => f.train === id);
    const usual = median(own.map((f) => f.starSize));
    return sum(
      own
        .filter((f) => trueVerdict(f, simulation, 'not-seen').verdict === 'kept' && f.starSize <= 1.3 * usual)
        .map((f) => (f.endMs - f.beginMs) * (SMALL_PX / f.starSize) ** 2),
    );
  };
}

describe('stars that grow beyond what is kept', () => {
  it.each(SEEDS)('win the frames that refocuses in time would have kept: random night %i', async (seed) => {
    const rate = 0.45 + 0.01 * seed;
    const focus = { growthPerHour: rate, unfocusedPx: 0 };
    const all = growing(seed, 'wren', { refocusAfter: [0], focus });
    const asAdvised = inTime(all, 'wren', rate);
    const half = (simulate(all).frames.filter((f) => f.train === 'wren').length * 3) / 5;
    const before: Scenario = {
      ...asAdvised,
      name: `beyond-${seed}`,
      painter: drawnStars(),
      trains: asAdvised.trains.map((t) => ({ ...t, refocusAfter: (t.refocusAfter ?? []).filter((n) => n < half) })),
    };
    const night = await reported(before, { stars: 'full', replay: null });
    expect(night.accounts.lights.filter(({ verdict }) => verdict === 'doubtful').length).toBeGreaterThan(5);
    const draft = draftOf(night, 'refocus-too-seldom', /^wren’s stars grew/);
    // Of wren alone: heron waits for none of its refocuses, and gains or loses by the luck of where dithers fall.
    const won = gainMs(before, asAdvised, judgedPointMs('wren'));
    expectHeld(draft?.winMs ?? NaN, won, `win of: ${draft?.title}`);
  });
});

describe.each(TRAINS)('a first refocus of %s that comes late', (id) => {
  it.each(SEEDS)('wins what one at the start would have won, and cost what was lost: random night %i', async (seed) => {
    const growthPerHour = 0.01 * seed;
    const focus = { growthPerHour, unfocusedPx: 0.3 + 0.05 * seed };
    const late = growing(seed, id, { refocusAfter: [30 + seed], focus });
    const before = { ...late, name: `overdue-${id}-${seed}` };
    const draft = await draftAlone(before, 'overdue-focus', new RegExp(`^${id}’s refocus`));
    const after = inTime(before, id, growthPerHour);
    expect(draft?.winMs).toBeGreaterThan(0);
    // What is won after the refocus as well is another finding's.
    const until = (s: Scenario): Scenario => ({ ...s, end: new Date(endOf(before, id, 30 + seed)).toISOString() });
    expectHeld(draft?.winMs ?? NaN, gainMs(until(before), until(after), pointMs), `win of: ${draft?.title}`);
    expectHeld(draft?.costMs ?? NaN, lostToSizeMs(until(before), id), `cost of: ${draft?.title}`);
  });
});

describe.each(TRAINS)('a refocus of %s that makes its stars larger', (id) => {
  it.each(SEEDS)('wins what one more, at once, would have won: random night %i', async (seed) => {
    const bad = 22 + seed;
    const worse = {
      refocusAfter: [7, bad, 44],
      worseFocus: { number: 2, px: 0.5 + 0.02 * seed },
      focus: { growthPerHour: 0.01, unfocusedPx: 0 },
    };
    const before = { ...growing(seed, id, worse), name: `worse-${id}-${seed}` };
    // The pilot's are at dithers.
    const again = bad + (id === 'heron' ? before.ditherEvery : 1);
    const after = growing(seed, id, { ...worse, refocusAfter: [7, bad, again, 44] });
    const draft = await draftAlone(before, 'worse-focus', new RegExp(`^${id}’s refocus`));
    expect(draft?.winMs).toBeGreaterThan(0);
    const until = (s: Scenario): Scenario => ({ ...s, end: new Date(endOf(before, id, 44)).toISOString() });
    expectHeld(draft?.winMs ?? NaN, gainMs(until(before), until(after), pointMs), `win of: ${draft?.title}`);
    expectHeld(draft?.costMs ?? NaN, lostToSizeMs(until(before), id), `cost of: ${draft?.title}`);
  });
});

describe('a train that is out of focus all night', () => {
  it.each(SEEDS)('stands before all minutes, by as much as its stars are larger: random night %i', async (seed) => {
    const random = seeded(seed);
    const unfocusedPx = 1.2 + random.next();
    const calm = growing(seed, 'wren', { focus: { growthPerHour: 0, unfocusedPx } });
    const before = {
      ...calm,
      name: `blurred-${seed}`,
      end: new Date(Date.parse(calm.begin) + 14_400_000).toISOString(),
    };
    const night = await reported(before);
    const { frames } = simulate(before);
    const arcsec = (id: string): number => {
      const own = frames.filter((f) => f.train === id);
      const { focalLengthMm = NaN } = before.trains.find((t) => t.id === id) ?? {};
      return (sum(own.map(({ starSize }) => starSize)) / own.length) * ((206.265 * 3.76) / focalLengthMm);
    };
    const [first] = night.findings.ranked;
    expect(first).toMatchObject({ id: 'larger-stars', isFirst: true });
    const stated = 1 + Number(/were (\d+) % larger/.exec(first?.title ?? '')?.[1]) / 100;
    expect(Math.abs(stated / (arcsec('wren') / arcsec('heron')) - 1)).toBeLessThan(0.03);
  });
});

/** When a train's frame of a number ends, ms. */
function endOf(s: Scenario, id: string, number: number): number {
  return simulate(s).frames.find((f) => f.train === id && f.number === number)?.endMs ?? NaN;
}
