/**
 * Moonlight and read noise: nights with the fault beside the same nights with the advice followed. What moonlight took
 * is by the program's own model on both, as the finding says it is; read noise is worked out here.
 */
import { describe, expect, it } from 'vitest';
import { isReplayed, sum, worthOfTotal, type JudgedFrame } from '../../../src/model/index.js';
import { FULL_MOON, MOON_RISES } from '../../support/generator/moonlit.js';
import { seeded } from '../../support/generator/random.js';
import type { PlannedExposures, Scenario } from '../../support/generator/scenario.js';
import { TARGETS } from '../../support/generator/scenarios.js';
import { simulate } from '../../support/generator/simulate.js';
import { trueVerdict } from '../../support/generator/true-verdict.js';
import { moonMs } from './moonlight.js';
import { draftOf, expectHeld, MINUTE, reported } from './support.js';
import { inFull, some } from '../../support/runs.js';

const SEEDS = some([1, 2, 11], 1);

const withPlan = (s: Scenario, id: string, plan: readonly PlannedExposures[]): Scenario => ({
  ...s,
  trains: s.trains.map((t) => (t.id === id ? { ...t, plan } : t)),
});

describe('filters in the wrong order under a Moon that rises', () => {
  it.each(SEEDS)('win what the order that is advised saves: random night %i', async (seed) => {
    const random = seeded(seed);
    // Subs of one length: how often they are dithered is another matter.
    const plan = (filter: string, minutes: number, seconds = 240): PlannedExposures => ({
      target: 'NGC 281',
      filter,
      seconds,
      count: Math.round((60 * minutes) / seconds),
    });
    const minutes = random.whole(120, 200);
    const filters = [plan('Ha', minutes), plan('L', 180), plan('B', 400)];
    const before = { ...withPlan({ ...MOON_RISES, seed }, 'heron', filters), name: `order-${seed}` };
    const night = await reported(before);
    const draft = draftOf(night, 'moon-cost', /cost heron/);
    const [, advised = ''] = /take (.+): /.exec(draft?.advice ?? '') ?? [];
    const order = advised.split(', then ').map((filter) => filter.replace(' first', ''));
    expect(order).toHaveLength(3);
    // As many frames of each as there were.
    const taken = (filter: string): number =>
      simulate(before).frames.filter((f) => f.train === 'heron' && f.filter === filter).length;
    const followed = filters
      .map((p) => ({ ...p, count: taken(p.filter) }))
      .sort((a, b) => order.indexOf(a.filter) - order.indexOf(b.filter));
    const after = await reported({ ...withPlan(before, 'heron', followed), name: `order-followed-${seed}` });
    const ofHeron = (f: JudgedFrame): boolean => f.train === 'heron';
    expectHeld(draft?.winMs ?? NaN, moonMs(night, ofHeron) - moonMs(after, ofHeron), `win of: ${draft?.title}`);
    expectHeld(draft?.costMs ?? NaN, moonMs(night, ofHeron), `cost of: ${draft?.title}`);
  });
});

describe('broadband under a full Moon', () => {
  it.each(SEEDS)('wins what the narrow band saves, and stands first: random night %i', async (seed) => {
    const random = seeded(seed);
    const through = (filters: Readonly<Record<string, string>>, name: string): Scenario => ({
      ...FULL_MOON,
      seed,
      name: `${name}-${seed}`,
      trains: FULL_MOON.trains.map((t) => ({
        ...t,
        plan: [{ target: 'NGC 281', filter: filters[t.id] ?? '', seconds: 240, count: 999 }],
      })),
    });
    const broad = { heron: random.next() < 0.5 ? 'L' : 'G', wren: random.next() < 0.5 ? 'R' : 'B' };
    const night = await reported(through(broad, 'broad'));
    const drafts = ['heron', 'wren'].map((id) => draftOf(night, 'moon-cost', new RegExp(`cost ${id}`)));
    const [, narrow = ''] = /through (\w+) instead/.exec(drafts[0]?.advice ?? '') ?? [];
    const after = await reported(through({ heron: narrow, wren: narrow }, 'narrow'));
    ['heron', 'wren'].forEach((id, i) => {
      const own = (f: JudgedFrame): boolean => f.train === id;
      expectHeld(drafts[i]?.costMs ?? NaN, moonMs(night, own), `cost of: ${drafts[i]?.title}`);
      expectHeld(drafts[i]?.winMs ?? NaN, moonMs(night, own) - moonMs(after, own), `win of: ${drafts[i]?.title}`);
    });
    expect(night.findings.ranked[0]?.id).toBe('moon-cost');
    expect(after.findings.ranked.filter((f) => f.id === 'moon-cost' && (f.winMs ?? 0) > 0)).toEqual([]);
  });
});

describe('a target too near the Moon', () => {
  it.each(SEEDS)('wins what the other target loses less: random night %i', async (seed) => {
    const random = seeded(seed);
    const target =
      (name: string) =>
      (p: PlannedExposures): PlannedExposures => ({ ...p, target: name });
    const atMs = Date.parse('2026-10-25T23:00:00.000Z') + random.whole(0, 90) * MINUTE;
    const turn = (name: string) => [
      {
        at: new Date(atMs).toISOString(),
        plans: Object.fromEntries(FULL_MOON.trains.map((t) => [t.id, t.plan.map(target(name))])),
      },
    ];
    const on = (first: string, then: string): Scenario => ({
      ...FULL_MOON,
      flipAt: undefined,
      seed,
      targets: [TARGETS.m33, TARGETS.ic1396],
      trains: FULL_MOON.trains.map((t) => ({ ...t, plan: t.plan.map(target(first)) })),
      turns: turn(then),
    });
    const before = { ...on('M 33', 'IC 1396'), name: `near-${seed}` };
    const night = await reported(before);
    const draft = draftOf(night, 'moon-near', /^wren imaged/);
    expect(draft?.advice).toContain('image IC 1396');
    const after = await reported({ ...on('IC 1396', 'IC 1396'), name: `near-followed-${seed}` });
    const early = (f: JudgedFrame): boolean => f.train === 'wren' && f.exposure.startMs < atMs;
    expectHeld(draft?.winMs ?? NaN, moonMs(night, early) - moonMs(after, early), `win of: ${draft?.title}`);
  });

  // What is named by hand in the finding's own test; here by the true Moon.
  it.each(SEEDS)('wins what hours after moonset lose less: random night %i', async (seed) => {
    const m15 = { name: 'M 15', ra: '21:29:58', dec: '+12:10:00', raDeg: 322.49, decDeg: 12.167 };
    const minutes = seeded(seed).whole(0, 40);
    const plan = (filter: string) => [{ target: m15.name, filter, seconds: 180, count: 999 }];
    const between = (begin: string, end: string): Scenario => ({
      ...FULL_MOON,
      seed,
      flipAt: undefined,
      targets: [m15],
      begin,
      end,
      trains: FULL_MOON.trains.map((t) => ({ ...t, refocusAfter: [], plan: plan(t.id === 'heron' ? 'L' : 'R') })),
    });
    // The half-lit Moon sets before midnight; the target sinks to its limit about two hours later.
    const duskMs = Date.parse('2026-10-18T18:20:00.000Z');
    const before = between(new Date(duskMs).toISOString(), new Date(duskMs + (60 + minutes) * MINUTE).toISOString());
    const night = await reported({ ...before, name: `moonset-${seed}` });
    const draft = draftOf(night, 'moon-near', /^heron imaged L/);
    const [, hour, minute] = /^Image L of M 15 after moonset, from (\d\d):(\d\d):/.exec(draft?.advice ?? '') ?? [];
    // Summer time is two hours ahead; the hour may be past midnight.
    const localMs = Date.parse('2026-10-17T22:00:00.000Z') + (Number(hour) * 60 + Number(minute)) * MINUTE;
    const fromMs = localMs < duskMs ? localMs + 24 * 60 * MINUTE : localMs;
    const after = await reported({
      ...between(new Date(fromMs - 3 * MINUTE).toISOString(), new Date(fromMs + (60 + minutes) * MINUTE).toISOString()),
      name: `moonset-followed-${seed}`,
    });
    const ofHeron = (f: JudgedFrame): boolean => f.train === 'heron';
    expectHeld(draft?.winMs ?? NaN, moonMs(night, ofHeron) - moonMs(after, ofHeron), `win of: ${draft?.advice}`);
  });
});

describe('subs too short for the read noise', () => {
  // The pair holds what one train does.
  it.each(inFull(SEEDS, []))(
    'of one train win what the length that is advised drowns of it: random night %i',
    async (seed) => {
      const random = seeded(seed);
      const readNoise = 3 + 3 * random.next();
      const seconds = random.whole(50, 100);
      const long = (of: number, ditherEvery: number): Scenario => ({
        ...withPlan(MOON_RISES, 'heron', [{ target: 'NGC 281', filter: 'Ha', seconds: of, count: 999 }]),
        trains: [
          {
            ...MOON_RISES.trains[0]!,
            plan: [{ target: 'NGC 281', filter: 'Ha', seconds: of, count: 999 }],
            refocusAfter: [],
          },
        ],
        seed,
        camera: { readNoise, gain: 0.25, darkCurrent: 0.001 },
        ditherEvery,
      });
      const before = { ...long(seconds, 12), name: `short-${seed}` };
      const night = await reported(before);
      const draft = draftOf(night, 'sub-length', /too short$/);
      const better = Number(/about ([\d.]+) s/.exec(draft?.advice ?? '')?.[1]);
      // The same time between two dithers.
      const after = long(better, Math.max(1, Math.round((12 * seconds) / better)));
      const sub = worthOfTotal(night, night.accounts.totals[0]!)?.sub;
      const rate = (sub?.skyElectronsPerSecond ?? NaN) + 0.001;
      /** Kept exposure as it would be worth without read noise: its variance is one read's for each sub. */
      const drowned = (s: Scenario): number => {
        const simulation = simulate(s);
        return sum(
          simulation.frames
            .filter((f) => trueVerdict(f, simulation, 'not-seen').verdict === 'kept')
            .map((f) => {
              const electrons = (rate * (f.endMs - f.beginMs)) / 1000;
              return ((f.endMs - f.beginMs) * electrons) / (electrons + readNoise ** 2);
            }),
        );
      };
      expectHeld(draft?.winMs ?? NaN, drowned(after) - drowned(before), `win of: ${draft?.title}, ${draft?.advice}`);
      const kept = sum(simulate(before).frames.map((f) => f.endMs - f.beginMs));
      expectHeld(draft?.costMs ?? NaN, kept - drowned(before), `cost of: ${draft?.title}`);
      expect(isReplayed(night.replay)).toBe(true);
    },
  );

  it.each(SEEDS)('of two trains win what the lengths in step drown of it: random night %i', async (seed) => {
    const random = seeded(seed);
    const readNoise = 3 + 3 * random.next();
    const seconds = random.whole(60, 120);
    const taking = (lengths: Readonly<Record<string, number>>, ditherEvery: number): Scenario => ({
      ...MOON_RISES,
      seed,
      end: '2026-10-30T23:00:00.000Z',
      flipAt: undefined,
      camera: { readNoise, gain: 0.25, darkCurrent: 0.001 },
      ditherEvery,
      trains: MOON_RISES.trains.map((t) => ({
        ...t,
        refocusAfter: [],
        plan: [{ target: 'NGC 281', filter: 'Ha', seconds: lengths[t.id] ?? seconds, count: 999 }],
      })),
    });
    const before = { ...taking({}, 12), name: `short-twins-${seed}` };
    const night = await reported(before);
    const draft = draftOf(night, 'sub-length', /too short/);
    expect(draft?.advice).toContain('With these lengths the trains end together at the dither.');
    const advised = Object.fromEntries(
      [...(draft?.advice ?? '').matchAll(/(\d+) s in Ha on (\w+)(?: and (\w+))?/g)].flatMap(([, length, ...trains]) =>
        trains.flatMap((train) => (train === undefined ? [] : [[train, Number(length)] as const])),
      ),
    );
    expect(Object.keys(advised).sort()).toEqual(['heron', 'wren']);
    // The same time between two dithers.
    const after = taking(advised, Math.max(1, Math.round((12 * seconds) / (advised.heron ?? NaN))));
    const rates = Object.fromEntries(
      night.accounts.totals.map((total) => {
        const sub = worthOfTotal(night, total)?.sub;
        return [total.train, (sub?.skyElectronsPerSecond ?? NaN) + 0.001];
      }),
    );
    const drowned = (s: Scenario): number => {
      const simulation = simulate(s);
      return sum(
        simulation.frames
          .filter((f) => trueVerdict(f, simulation, 'not-seen').verdict === 'kept')
          .map((f) => {
            const electrons = ((rates[f.train] ?? NaN) * (f.endMs - f.beginMs)) / 1000;
            return ((f.endMs - f.beginMs) * electrons) / (electrons + readNoise ** 2);
          }),
      );
    };
    expectHeld(draft?.winMs ?? NaN, drowned(after) - drowned(before), `win of: ${draft?.title}, ${draft?.advice}`);
  });
});
