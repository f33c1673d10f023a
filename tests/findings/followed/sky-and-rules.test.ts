/**
 * Targets too low, sensors too warm, dithers too often, lengths that do not meet, and what nobody can help: nights with
 * the fault beside the same nights with the advice followed.
 */
import { describe, expect, it } from 'vitest';
import { isReplayed, sum } from '../../../src/model/index.js';
import { seeded } from '../../support/generator/random.js';
import type { Scenario } from '../../support/generator/scenario.js';
import { TARGETS } from '../../support/generator/scenarios.js';
import { simulate } from '../../support/generator/simulate.js';
import type { SimulatedFrame } from '../../support/generator/simulation.js';
import { trueVerdict } from '../../support/generator/true-verdict.js';
import { draftAlone, draftOf, expectHeld, gainMs, MINUTE, reported, scenarioOf } from './support.js';
import { altitudeDeg } from './true-sky.js';
import { some } from '../../support/runs.js';

const SEEDS = some([1, 2, 11], 1);
/** The limit in the sessions' rig files, degrees. */
const LIMIT_DEG = 25;
/** A real cluster that rises late in the evening of the scenario's night; rounded. */
const M45 = { name: 'M 45', ra: '03:47:00', dec: '+24:07:00', raDeg: 56.75, decDeg: 24.117 };

const onTarget = (s: Scenario, target: string): Scenario => ({
  ...s,
  trains: s.trains.map((t) => ({ ...t, plan: t.plan.map((p) => ({ ...p, target })) })),
});
/** The night with turns to other targets, in order of time. */
const turning = (s: Scenario, ...turns: readonly (readonly [atMs: number, target: string])[]): Scenario => ({
  ...s,
  turns: turns.map(([atMs, target]) => ({
    at: new Date(atMs).toISOString(),
    plans: Object.fromEntries(s.trains.map((t) => [t.id, t.plan.map((p) => ({ ...p, target }))])),
  })),
});

const isLow = (s: Scenario, f: SimulatedFrame): boolean =>
  altitudeDeg(s, f.target, (f.beginMs + f.endMs) / 2) < LIMIT_DEG;

function keptHighMs(s: Scenario): number {
  const simulation = simulate(s);
  return sum(
    simulation.frames
      .filter((f) => trueVerdict(f, simulation, 'not-seen').verdict === 'kept' && !isLow(s, f))
      .map((f) => f.endMs - f.beginMs),
  );
}

const lowMs = (s: Scenario): number =>
  sum(
    simulate(s)
      .frames.filter((f) => isLow(s, f))
      .map((f) => f.endMs - f.beginMs),
  );

describe('a target too low', () => {
  it.each(SEEDS)('begun too early: another one before it wins what is stated, random night %i', async (seed) => {
    const calm = { ...scenarioOf(seed), targets: [M45, TARGETS.ngc281] };
    const last = [Date.parse('2026-10-15T02:00:00.000Z'), TARGETS.ngc281.name] as const;
    const before = { ...turning(onTarget(calm, M45.name), last), name: `low-rising-${seed}` };
    const draft = await draftAlone(before, 'low-target', /begun too low/);
    expect(draft?.advice).toContain('image NGC 281 before');
    const rises = simulate(before).frames.find((f) => !isLow(before, f))?.beginMs ?? NaN;
    const after = turning(onTarget(calm, TARGETS.ngc281.name), [rises, M45.name], last);
    expectHeld(draft?.winMs ?? NaN, gainMs(before, after, keptHighMs), `win of: ${draft?.title}`);
    expectHeld(draft?.costMs ?? NaN, lowMs(before), `cost of: ${draft?.title}`);
  });

  it.each(SEEDS)('gone on with too long: leaving it wins what is stated, random night %i', async (seed) => {
    const late = { ...scenarioOf(seed), begin: '2026-10-14T21:10:00.000Z', end: '2026-10-15T05:20:00.000Z' };
    const calm = { ...late, targets: [TARGETS.ngc281, TARGETS.ic1396] };
    const turn = [Date.parse('2026-10-14T23:10:00.000Z'), TARGETS.ic1396.name] as const;
    const before = { ...turning(onTarget(calm, TARGETS.ngc281.name), turn), name: `low-setting-${seed}` };
    const draft = await draftAlone(before, 'low-target', /until it was too low/);
    expect(draft?.advice).toContain('for NGC 281');
    const sets = simulate(before).frames.find((f) => isLow(before, f))?.beginMs ?? NaN;
    const after = turning(onTarget(calm, TARGETS.ngc281.name), turn, [sets, TARGETS.ngc281.name]);
    expectHeld(draft?.winMs ?? NaN, gainMs(before, after, keptHighMs), `win of: ${draft?.title}`);
    expectHeld(draft?.costMs ?? NaN, lowMs(before), `cost of: ${draft?.title}`);
  });
});

describe('a sensor that is warm at first', () => {
  it.each(SEEDS)(
    'has its price in exposure without darks, and none when cooled in time: random night %i',
    async (seed) => {
      const random = seeded(seed);
      const id = random.next() < 0.5 ? 'heron' : 'wren';
      const warmFrames = random.whole(3, 20);
      const calm = scenarioOf(seed);
      const warmerC = (frame: number): number => (frame <= warmFrames ? 4 - (2.5 * frame) / warmFrames : 0);
      const before: Scenario = {
        ...calm,
        name: `warm-${seed}`,
        trains: calm.trains.map((t) => (t.id === id ? { ...t, warmerC } : t)),
      };
      const draft = await draftAlone(before, 'cooling', new RegExp(`^${id} began`));
      const warmMs = sum(
        simulate(before)
          .frames.filter((f) => f.train === id && f.number <= warmFrames)
          .map((f) => f.endMs - f.beginMs),
      );
      // The frames themselves are good: no minute of theirs is called lost or recoverable.
      expect(draft).toMatchObject({ costMs: 0, frames: warmFrames });
      expect(draft?.winMs).toBeUndefined();
      expect(minutesOf(draft?.price)).toBeCloseTo(warmMs / MINUTE, 0);
      const followed = await reported({ ...calm, name: `cold-${seed}` });
      expect(followed.findings.ranked.filter((f) => f.id === 'cooling')).toEqual([]);
    },
  );
});

/** `1 h 12 min off …`, `12 min off …`. */
function minutesOf(price = ''): number {
  const [, hours = '0', minutes = '0'] = /^(?:(\d+) h)? ?(?:(\d+) min)?/.exec(price) ?? [];
  return 60 * Number(hours) + Number(minutes);
}

describe('dithers in excess', () => {
  it.each(SEEDS)('win what fewer of them keep: random night %i', async (seed) => {
    const calm = scenarioOf(seed);
    const short = {
      ...calm,
      ditherEvery: 1,
      trains: calm.trains.map((t) => ({ ...t, plan: t.plan.map((p) => ({ ...p, seconds: 120 })) })),
    };
    const before = { ...short, name: `often-${seed}` };
    const night = await reported(before);
    const draft = draftOf(night, 'dither-often', /would have been enough$/);
    const every = Number(/^Dither every (\d+) frames/.exec(draft?.advice ?? '')?.[1]);
    expect(every).toBeGreaterThan(1);
    const after = { ...before, ditherEvery: every };
    if (draft?.winMs !== undefined) expectHeld(draft.winMs, gainMs(before, after), `win of: ${draft.title}`);
    // Of every `every` dithers all but one: what their waits, moves and settling took of both trains.
    const spentMs = sum(
      simulate(before).cycles.flatMap(({ beginMs, readyMs, moveMs, settleMs }) =>
        Object.values(readyMs).map((ready) => beginMs + moveMs + settleMs - ready),
      ),
    );
    expectHeld(draft?.costMs ?? NaN, spentMs * (1 - 1 / every), `cost of: ${draft?.title}`);
  });
});

describe('lengths that do not meet', () => {
  it.each(some([3, 5, 7, 12], 1))('win what the length that is advised keeps: random night %i', async (seed) => {
    const random = seeded(seed);
    const calm = scenarioOf(seed);
    const [first, second] = [300, random.whole(200, 280)];
    const before: Scenario = {
      ...calm,
      name: `unequal-${seed}`,
      ditherEvery: 3,
      trains: calm.trains.map((t, i) => ({
        ...t,
        plan: t.plan.map((p) => ({ ...p, seconds: i === 0 ? first : second })),
      })),
    };
    const night = await reported(before);
    if (!isReplayed(night.replay)) throw new Error('not replayed');
    const draft = draftOf(night, 'unequal-exposures', /do not meet/);
    if (draft?.winMs === undefined) return;
    const seconds = Number(/exposes ([\d.]+) s/.exec(draft.advice)?.[1]);
    const after = {
      ...before,
      trains: before.trains.map((t) => (t.id === 'wren' ? { ...t, plan: t.plan.map((p) => ({ ...p, seconds })) } : t)),
    };
    expectHeld(draft.winMs, gainMs(before, after), `win of: ${draft.title}, ${draft.advice}`);
  });
});

describe('guiding that is rough all night', () => {
  it.each(SEEDS)('wins what good guiding keeps, and stands first: random night %i', async (seed) => {
    const before = { ...scenarioOf(seed), guidingEverySeconds: 6, guidingSigmaArcsec: 4, name: `rough-${seed}` };
    const night = await reported(before);
    const [first] = night.findings.ranked;
    expect(first).toMatchObject({ id: 'rough-guiding' });
    const shutterMs = sum(simulate(before).frames.map((f) => f.endMs - f.beginMs));
    expectHeld(first?.costMs ?? NaN, shutterMs, 'cost of rough guiding');
    // Every frame of it is doubtful: the same night with good guiding keeps all that the simulator keeps.
    const good = await reported({ ...before, guidingSigmaArcsec: 0.6, name: `smooth-${seed}` });
    const keptMs = (of: typeof night): number => sum(of.accounts.totals.map((t) => t.ms.kept));
    expectHeld(first?.winMs ?? NaN, keptMs(good) - keptMs(night), 'win of good guiding');
  });
});

describe('what nobody can help', () => {
  it.each(SEEDS)('costs what it took: a lost guide star and clouds, random night %i', async (seed) => {
    const random = seeded(seed);
    const atMs = (hour: number): number => Date.parse('2026-10-14T19:30:00.000Z') + hour * 60 * MINUTE;
    const from = atMs(4 + random.next());
    const before: Scenario = {
      ...scenarioOf(seed),
      name: `helpless-${seed}`,
      starLost: [1, 2, 3].map((hour) => ({
        at: new Date(atMs(hour + 0.5 * random.next())).toISOString(),
        seconds: random.whole(40, 90),
      })),
      clouds: [
        {
          from: new Date(from).toISOString(),
          to: new Date(from + random.whole(20, 60) * MINUTE).toISOString(),
        },
      ],
    };
    const night = await reported(before);
    const simulation = simulate(before);
    const gaps = simulation.guidingOff.filter((off) => off.causedBy === undefined);
    const harmed = simulation.frames.filter(
      (f) =>
        !f.aborted &&
        gaps.some((off) => Math.min(f.endMs, off.toMs) - Math.max(f.beginMs, off.fromMs) > 2000) &&
        trueVerdict(f, simulation, 'not-seen').verdict !== 'kept',
    );
    const gap = draftOf(night, 'star-gap', /^Guide star lost/);
    expectHeld(gap?.costMs ?? NaN, sum(harmed.map((f) => f.endMs - f.beginMs)), 'cost of lost guide stars');
    expect(gap?.winMs).toBeUndefined();
    const hold = draftOf(night, 'hold', /on hold/);
    const [cloud] = before.clouds;
    const heldMs = cloud ? Date.parse(cloud.to) - Date.parse(cloud.from) : NaN;
    expectHeld(hold?.costMs ?? NaN, 2 * heldMs, 'cost of clouds');
    expect(hold?.winMs).toBe(0);
  });
});
