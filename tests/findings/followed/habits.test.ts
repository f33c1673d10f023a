/**
 * Habits that cost time, one on each night: the report's advice is followed in the simulator, and what the night then
 * truly keeps is compared with the win that the finding states. What it cost is worked out again from the simulator's
 * own books.
 */
import { describe, expect, it } from 'vitest';
import { sum } from '../../../src/model/index.js';
import type { FindingDraft } from '../../../src/findings/finding.js';
import { simulate } from '../../support/generator/simulate.js';
import type { Simulation } from '../../support/generator/simulation.js';
import type { Scenario, ScenarioHabits, ScenarioTrain } from '../../support/generator/scenario.js';
import { some } from '../../support/runs.js';
import { draftOf, expectHeld, gainMs, isHeld, reported, scenarioOf } from './support.js';

const SECOND = 1000;
/**
 * A win that rests on one replayed night: of 300 nights with needless refocuses, other than those here, 295 were within
 * the promise and all within so many times it.
 */
const UNLUCKY = 2;
/** A companion that follows the replayed advice begins no exposure within this of a dither. */
const PATIENT_MS = 60 * SECOND;

const having = (s: Scenario, habits: ScenarioHabits): Scenario => ({ ...s, habits });
const each = (s: Scenario, change: (train: ScenarioTrain) => Partial<ScenarioTrain>): Scenario => ({
  ...s,
  trains: s.trains.map((train) => ({ ...train, ...change(train) })),
});
const on = (s: Scenario, id: string, change: Partial<ScenarioTrain>): Scenario =>
  each(s, (train) => (train.id === id ? change : {}));
const threeFilters = (s: Scenario): Scenario =>
  each(s, ({ plan }) => ({
    plan: ['Ha', 'OIII', 'SII'].map((filter) => ({
      target: 'NGC 281',
      filter,
      seconds: plan[0]?.seconds ?? 240,
      count: 12,
    })),
  }));
/** Subs of a minute on both; heron goes through three filters, so many frames of each in a row. */
const inRows = (s: Scenario, count: number): Scenario =>
  each(s, ({ id }) => ({
    plan: (id === 'heron' ? ['Ha', 'OIII', 'SII'] : ['Ha']).map((filter) => ({
      target: 'NGC 281',
      filter,
      seconds: 60,
      count,
    })),
  }));
/** Random nights; of two trains whose exposures may or may not meet. */
const SEEDS = some([2, 1, 13, 11, 3, 5, 7, 9], 1);
/** Habits of one train, tried on either. */
const EITHER = some(['wren', 'heron'], 1);
const OFTEN = [8, 16, 24, 32, 40, 48, 56];

interface Case {
  /** The finding, and the train that its title names where there may be several. */
  readonly id: string;
  readonly about: RegExp;
  readonly badly: (s: Scenario) => Scenario;
  /** The same night with the advice followed. */
  readonly well: (s: Scenario, advice: FindingDraft) => Scenario;
  /** What it cost, ms of trains, from the simulator's books. */
  readonly costMs?: (before: Simulation, s: Scenario) => number;
}

/** Time between two exposures of a train beyond a goal, where nothing but reading out lies between. */
function slowMs({ frames }: Simulation, id: string, goalMs: number): number {
  const own = frames.filter((f) => f.train === id);
  return sum(
    own.slice(1).map((f, i) => {
      const pauseMs = f.beginMs - (own[i]?.endMs ?? f.beginMs);
      return pauseMs > goalMs && pauseMs <= 60 * SECOND ? pauseMs - goalMs : 0;
    }),
  );
}

/** The spans between two named events of a train's log. */
function runsMs({ events }: Simulation, id: string, begin: string, end: string): number[] {
  const own = events.filter((e) => e.train === id);
  return own.flatMap((e, i) =>
    e.event === begin ? [(own.slice(i).find((f) => f.event === end)?.atMs ?? e.atMs) - e.atMs] : [],
  );
}

const CASES: readonly Case[] = [
  {
    id: 'settle-time',
    about: /^Settling took/,
    badly: (s) => having(s, { settleExtraSeconds: 25 }),
    well: (s) => s,
    // Beyond the twelve seconds that are usual, on both trains.
    costMs: ({ cycles }, { trains }) =>
      trains.length * sum(cycles.map(({ settleMs }) => Math.max(0, settleMs - 12 * SECOND))),
  },
  ...EITHER.map(
    (id): Case => ({
      id: 'slow-readout',
      about: new RegExp(`^${id} took`),
      badly: (s) => on(s, id, { readoutMs: 14_000 }),
      well: (s) => on(s, 'wren', { patienceMs: PATIENT_MS }),
      costMs: (before, s) => slowMs(before, id, (s.trains.find((t) => t.id !== id)?.readoutMs ?? 0) + 200),
    }),
  ),
  {
    id: 'companion-start',
    about: /too late$/,
    badly: (s) => on(s, 'wren', { startOffsetMin: 40 }),
    well: (s) => on(s, 'wren', { startOffsetMin: 2.5 }),
    costMs: ({ frames }) => {
      const first = (id: string): number => Math.min(...frames.filter((f) => f.train === id).map((f) => f.beginMs));
      return first('wren') - first('heron') - 180 * SECOND;
    },
  },
  {
    id: 'companion-start',
    about: /before the mount had come to rest$/,
    badly: (s) => on(s, 'wren', { startOffsetMin: -2 }),
    well: (s) => on(s, 'wren', { startOffsetMin: 1 }),
    costMs: ({ frames, strays }) =>
      sum(
        frames
          .filter((f) => strays.some(({ fromMs, toMs }) => f.beginMs < toMs && f.endMs > fromMs))
          .map((f) => f.endMs - f.beginMs),
      ),
  },
  {
    id: 'dither-through',
    about: /of wren$/,
    badly: (s) => having(s, { dithersUnasked: true }),
    well: (s, { advice }) => on(s, 'wren', { patienceMs: SECOND * Number(/within (\d+) s/.exec(advice)?.[1] ?? 0) }),
    costMs: ({ frames, strays }) =>
      sum(
        frames
          .filter((f) => f.train === 'wren' && strays.some(({ fromMs, toMs }) => f.beginMs < toMs && f.endMs > fromMs))
          .map((f) => f.endMs - f.beginMs),
      ),
  },
  {
    id: 'partner-refocus',
    about: /^heron’s refocus/,
    badly: (s) => on(s, 'heron', { refocusAfter: [10, 22, 34, 46, 58, 70] }),
    well: (s) => having(on(s, 'heron', { refocusAfter: [10, 22, 34, 46, 58, 70] }), { refocusTogether: true }),
    costMs: ({ frames, guidingOff }) =>
      sum(
        frames
          .filter(
            (f) =>
              f.train === 'wren' &&
              guidingOff.some(({ fromMs, toMs }) => Math.min(f.endMs, toMs) - Math.max(f.beginMs, fromMs) > 2 * SECOND),
          )
          .map((f) => f.endMs - f.beginMs),
      ),
  },
  {
    id: 'meridian-flip',
    about: /^The meridian flip/,
    badly: (s) => having({ ...s, flipAt: '2026-10-14T23:40:00.000Z' }, { flipSeconds: 600 }),
    // Four minutes from the turn to the next exposure are usual: 188 s, centring and guiding.
    well: (s) => having({ ...s, flipAt: '2026-10-14T23:40:00.000Z' }, { flipSeconds: 188, flipsAtDither: true }),
    costMs: ({ events, frames }, { trains }) => {
      const turnMs = events.find((e) => e.event === 'flip-begin')?.atMs ?? NaN;
      return sum(
        trains.map(({ id }) => {
          const own = frames.filter((f) => f.train === id);
          const last = Math.max(...own.map((f) => f.endMs).filter((ms) => ms <= turnMs));
          return Math.min(...own.map((f) => f.beginMs).filter((ms) => ms >= turnMs)) - last;
        }),
      );
    },
  },
  ...EITHER.map(
    (id): Case => ({
      id: 'refocus-too-often',
      about: new RegExp(`^${id} refocused`),
      badly: (s) => having(on(s, id, { refocusAfter: OFTEN }), { sizeBeforeFocus: 2.15 }),
      // The first of a night has nothing to be measured by.
      well: (s) => having(on(s, id, { refocusAfter: OFTEN.slice(0, 1) }), { sizeBeforeFocus: 2.15 }),
      costMs: (before) => sum(runsMs(before, id, 'focus-begin', 'focus-end').slice(1)),
    }),
  ),
  {
    // By the clock on both: one of them alone would wait for what the other does.
    id: 'refocus-too-often',
    about: /^heron and wren refocused|^wren and heron refocused/,
    badly: (s) =>
      having(
        each(s, () => ({ refocusAfter: OFTEN })),
        { sizeBeforeFocus: 2.15 },
      ),
    well: (s) =>
      having(
        each(s, () => ({ refocusAfter: OFTEN.slice(0, 1) })),
        { sizeBeforeFocus: 2.15 },
      ),
    costMs: (before) =>
      sum(['heron', 'wren'].map((id) => sum(runsMs(before, id, 'focus-begin', 'focus-end').slice(1)))),
  },
  ...EITHER.map(
    (id): Case => ({
      id: 'filter-offsets',
      about: new RegExp(`^${id} refocused`),
      badly: (s) => on(threeFilters(s), id, { refocusOnFilterChange: true }),
      well: threeFilters,
      costMs: (before) => sum(runsMs(before, id, 'focus-begin', 'focus-end')),
    }),
  ),
  {
    id: 'filter-changes',
    about: /^heron changed its filter/,
    badly: (s) => inRows(s, 1),
    well: (s, { advice }) => inRows(s, Number(/^Take (\d+) frames/.exec(advice)?.[1])),
  },
];

describe.each(CASES)('$id, $about', (one) => {
  const nameOf = (seed: number): string => `${one.id}-${one.about.source.replace(/\W/g, '')}-${seed}`;
  let found = 0;
  /** Nights on which the win is off by more than the promise, and how. */
  const beyond: string[] = [];

  it.each(SEEDS)('states what following it wins, and what it cost: random night %i', async (seed) => {
    const calm = scenarioOf(seed);
    const before = { ...one.badly(calm), name: nameOf(seed) };
    const night = await reported(before);
    const draft = draftOf(night, one.id, one.about);
    if (draft === undefined) return;
    found++;
    if (draft.winMs !== undefined) {
      const trueMs = Math.max(0, gainMs(before, one.well(calm, draft)));
      // Where in a round the night ended, and what came due in it, is luck that one night does not average out.
      expectHeld(draft.winMs, trueMs, `win of: ${draft.title}`, UNLUCKY);
      if (!isHeld(draft.winMs, trueMs)) beyond.push(draft.title);
      // A fault that claims its minutes first is reported with its whole gain, even if something else would hide it.
      const stated = draft.claimsFirst ? night.findings.ranked.find(({ id }) => id === one.id)?.winMs : undefined;
      if (stated !== undefined) expectHeld(stated, trueMs, `win on the page of: ${draft.title}`, UNLUCKY);
      expect(stated === undefined).toBe(draft.claimsFirst !== true);
    }
    const cost = one.costMs?.(simulate(before), before);
    if (cost !== undefined) expectHeld(draft.costMs, cost, `cost of: ${draft.title}`);
  });

  it('is found on one of them at least, and its win is beyond the promise on no more than one', () => {
    expect(found).toBeGreaterThan(0);
    expect(beyond.length, beyond.join('; ')).toBeLessThanOrEqual(found > 2 ? 1 : 0);
  });
});
