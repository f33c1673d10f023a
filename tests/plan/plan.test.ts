import { describe, expect, it } from 'vitest';
import { sum, type PlannedNight } from '../../src/model/index.js';
import { leftAfter, planNights } from '../../src/plan/index.js';
import { inFull } from '../support/runs.js';
import { HERON, question, target, WREN } from './fake-nights.js';

const filtersOf = (night: PlannedNight | undefined): string[] => [
  ...new Set(night?.blocks.flatMap((b) => b.trains.flatMap((t) => (t.state === 'exposes' ? [t.filter] : [])))),
];
/** How long the mount stays on each target, ms. */
function visitsOf({ blocks }: PlannedNight): number[] {
  return blocks.reduce<number[]>((visits, { span, isNewTarget }) => {
    const lengthMs = span.endMs - span.startMs;
    if (isNewTarget) visits.push(lengthMs);
    else visits.push((visits.pop() ?? 0) + lengthMs);
    return visits;
  }, []);
}
const added = (night: PlannedNight | undefined): number => sum((night?.lines ?? []).map((line) => line.addsHours));

describe('planNights', () => {
  it('takes broadband without the Moon and narrow bands under it', () => {
    const [night] = planNights(question([target('M 33', { L: 20, Ha: 20 })], [{ slots: 12, moon: [6, 12] }]));
    const dark = night?.blocks.filter((b) => b.moonSeparationDeg === null) ?? [];
    const lit = night?.blocks.filter((b) => b.moonSeparationDeg !== null) ?? [];
    expect(new Set(dark.flatMap((b) => b.trains.flatMap((t) => (t.state === 'exposes' ? [t.filter] : []))))).toEqual(
      new Set(['L']),
    );
    expect(new Set(lit.flatMap((b) => b.trains.flatMap((t) => (t.state === 'exposes' ? [t.filter] : []))))).toEqual(
      new Set(['Ha']),
    );
  });

  it('gives no train broadband under the Moon, not even beside a narrow band that goes on', () => {
    const [night] = planNights(question([target('M 33', { L: 20, Ha: 4 })], [{ slots: 12, moon: [3, 12] }]));
    for (const block of night?.blocks ?? [])
      if (block.moonSeparationDeg !== null)
        for (const train of block.trains) expect(train).not.toMatchObject({ filter: 'L' });
  });

  it('has one target at a time, in order of time, inside the night', () => {
    const [night] = planNights(
      question(
        [target('NGC 281', { Ha: 9 }), target('M 33', { L: 9 })],
        [
          {
            slots: 14,
            up: [
              [0, 6],
              [5, 14],
            ],
          },
        ], // prettier-ignore
      ),
    );
    const blocks = night?.blocks ?? [];
    expect(blocks.map((b) => b.target)).toEqual(['NGC 281', 'M 33']);
    blocks.forEach((block, i) => {
      const before = blocks[i - 1];
      if (before) expect(block.span.startMs).toBeGreaterThanOrEqual(before.span.endMs);
    });
  });

  it('uses goals up over the nights, and never adds more than was lacking', () => {
    const targets = [target('M 33', { L: 12 }), target('NGC 281', { Ha: 10, OIII: 10 })];
    const nights = planNights(
      question(
        targets,
        Array.from({ length: 5 }, () => ({ slots: 16 })),
      ),
    );
    // Less than a quarter of an hour of a filter is left.
    expect(sum(nights.map(added))).toBeGreaterThan(32 - 3 * 0.25);
    expect(sum(nights.map(added))).toBeLessThanOrEqual(32 + 1e-9);
    expect(nights.at(-1)?.blocks).toEqual([]);
    const left = new Map<string, number>([
      ['L', 12],
      ['Ha', 10],
      ['OIII', 10],
    ]); // prettier-ignore
    for (const night of nights)
      for (const line of night.lines) {
        const was = left.get(line.filter ?? '') ?? NaN;
        expect(line.lacksHours).toBeCloseTo(was - line.addsHours, 9);
        left.set(line.filter ?? '', line.lacksHours);
      }
  });

  it('keeps a goal of one train to that train', () => {
    const lines = [{ filter: 'Ha', train: 'wren', hours: 20, share: 1 }];
    const [night] = planNights(question([{ ...target('IC 1396', {}), lines }], [{ slots: 8 }]));
    for (const block of night?.blocks ?? [])
      expect(block.trains.map((t) => [t.train, t.state])).toEqual([
        ['heron', 'rests'],
        ['wren', 'exposes'],
      ]);
    expect(added(night)).toBeGreaterThan(3);
  });

  it('gives the finer pixels the broadband where there is not enough of it for both', () => {
    // Subs of one length: the trains are in step whatever they take.
    const subSeconds = new Map(['Ha', 'L'].map((filter) => [filter, 420] as const));
    const trains = [HERON, WREN].map((train) => ({ ...train, subSeconds }));
    const [night] = planNights(question([target('M 33', { L: 2.4, Ha: 20 })], [{ slots: 6 }], { trains }));
    const first = night?.blocks[0]?.trains.map((t) => (t.state === 'exposes' ? [t.train, t.filter] : []));
    expect(first).toContainEqual(['wren', 'L']);
  });

  it('counts an hour of a target with priority 3 three times', () => {
    const targets = [target('A', { Ha: 50 }), target('B', { Ha: 50 }, { priority: 3 })];
    const [night] = planNights(question(targets, [{ slots: 10 }]));
    expect(night?.blocks.map((b) => b.target)).toEqual(['B']);
  });

  it('gives a short night to what has priority, and finishes it among more nights', () => {
    const targets = [target('A', { Ha: 9 }), target('B', { Ha: 9 }, { priority: 2 })];
    const nights = planNights(
      question(
        targets,
        Array.from({ length: 4 }, () => ({ slots: 8 })),
      ),
    );
    expect(new Set(nights[0]?.blocks.map((b) => b.target))).toEqual(new Set(['B']));
    const left = leftAfter(question(targets, []), nights);
    expect(left.filter(({ target: name, lacksHours }) => name === 'B' && lacksHours > 0.25)).toEqual([]);
  });

  it('evens out the panels of a mosaic from night to night', () => {
    const panels = ['1', '2', '3'].map((name) => target(`Wall ${name}`, { Ha: 20 }));
    const nights = planNights(
      question(
        panels,
        Array.from({ length: 6 }, () => ({ slots: 10 })),
      ),
    );
    const had = new Map(panels.map(({ name }) => [name, 0]));
    for (const night of nights) {
      for (const line of night.lines) had.set(line.target, (had.get(line.target) ?? 0) + line.addsHours);
      const hours = [...had.values()];
      // No panel is a night ahead of the others: five hours on two trains.
      expect(Math.max(...hours) - Math.min(...hours)).toBeLessThanOrEqual(10);
    }
    expect(Math.min(...had.values())).toBeGreaterThan(10);
  });

  it('says of all that is left why it is', () => {
    const targets = [
      target('little', { Ha: 0.2 }),
      target('never up', { Ha: 5 }),
      target('moonlit', { L: 5 }),
      target('big', { Ha: 50 }),
    ];
    const asked = question(targets, [
      {
        slots: 8,
        moon: [0, 8],
        up: [
          [0, 8],
          [0, 0],
          [0, 8],
          [0, 8],
        ],
      },
    ]); // prettier-ignore
    const why = leftAfter(asked, planNights(asked)).map(({ target: name, why: reason }) => [name, reason]);
    expect(Object.fromEntries(why)).toEqual({ little: 'little', 'never up': 'never-up', moonlit: 'sky', big: 'time' });
    const summer = question([target('A', { Ha: 5 })], [{ slots: 0 }]);
    expect(leftAfter(summer, planNights(summer))).toMatchObject([{ target: 'A', why: 'never-dark', lacksHours: 5 }]);
  });

  it('goes to the target whose season ends first', () => {
    const targets = [target('A', { Ha: 50 }), target('B', { Ha: 50 }, { daysLeft: 10 })];
    expect(planNights(question(targets, [{ slots: 10 }]))[0]?.blocks.map((b) => b.target)).toEqual(['B']);
  });

  it('whole subs fit in their stretch with change, focus runs, flip and dithers', () => {
    const [night] = planNights(question([target('NGC 281', { Ha: 40, OIII: 40 })], [{ slots: 12, transits: [5] }]));
    for (const { span, trains, dither, transitMs } of night?.blocks ?? []) {
      expect(transitMs).not.toBeNull();
      for (const train of trains) {
        if (train.state === 'rests' || !dither) continue;
        const perCycle = dither.subs[train.train] ?? 1;
        const later = train.refocusMs.filter((atMs) => atMs > span.startMs).length;
        const needed =
          Math.floor((train.subs - 1) / perCycle) * 20_000 +
          train.subs * (train.subSeconds * 1000 + 5000) +
          600_000 +
          later * 180_000 +
          360_000; // prettier-ignore
        expect(needed).toBeLessThanOrEqual(span.endMs - span.startMs);
        expect(train.subs).toBeGreaterThan(30);
      }
    }
  });

  it('focuses all trains at once, and none goes without for much more than the usual time', () => {
    const [night] = planNights(
      question(
        [target('M 33', inFull<Record<string, number>>({ L: 5, R: 2, Ha: 1 }, { L: 5, R: 2 }))],
        [{ slots: 12 }],
      ),
    );
    const blocks = night?.blocks ?? [];
    expect(blocks.length).toBeGreaterThan(1);
    let lastMs = blocks[0]?.span.startMs ?? NaN;
    for (const { span, trains } of blocks) {
      const moments = trains.flatMap((t) => (t.state === 'exposes' ? [t.refocusMs] : []));
      for (const own of moments) expect(own).toEqual(moments[0]);
      for (const atMs of [...(moments[0] ?? []), span.endMs]) {
        // An hour and a half, and half an hour of grace at a stretch's end.
        expect(atMs - lastMs).toBeLessThanOrEqual(2 * 3_600_000);
        if (atMs < span.endMs) lastMs = atMs;
      }
    }
  });

  it('serves a goal through whatever filter, and filters that no train has used yet', () => {
    const any = { ...target('A', {}), lines: [{ filter: null, train: null, hours: 4, share: 1 }] };
    expect(filtersOf(planNights(question([any], [{ slots: 4 }]))[0])).toHaveLength(1);
    const unused = planNights(question([target('A', { NII: 4 })], [{ slots: 4 }]))[0];
    expect(filtersOf(unused)).toEqual(['NII']);
    expect(unused?.blocks[0]?.trains[0]).toMatchObject({ isUsualLength: false, subSeconds: 420 });
  });

  it('plans nothing without darkness, without targets, and for one train what that train can do', () => {
    expect(planNights(question([target('A', { Ha: 4 })], [{ slots: 0 }]))[0]).toMatchObject({
      window: null,
      blocks: [],
    });
    expect(planNights(question([], [{ slots: 4 }]))[0]?.blocks).toEqual([]);
    expect(planNights(question([target('A', { Ha: 4 })], [{ slots: 4 }], { trains: [WREN] }))[0]?.blocks).toHaveLength(
      1,
    );
  });

  const [many, fortnight] = inFull([12, 14], [6, 8]);
  it(`fills most of ${many} targets’ goals over ${fortnight} nights, and none beyond them`, () => {
    const targets = Array.from({ length: many }, (_, i) =>
      target(`T ${i}`, { Ha: 1 + (i % 5), OIII: 2 + (i % 3), L: 1 + (i % 4) }, { priority: 1 + (i % 3) / 10 }),
    );
    const nights = Array.from({ length: fortnight }, (_, n) => ({
      slots: 22,
      moon: [Math.max(0, n - 4), 22] as const,
      up: targets.map((_t, i) => [Math.max(0, i - 3), Math.min(22, i + 12)] as const),
    }));
    const planned = planNights(question(targets, nights, { trains: [HERON, WREN] }));
    const wanted = sum(targets.flatMap((t) => t.lines.map((line) => line.hours)));
    expect(sum(planned.map(added))).toBeLessThanOrEqual(wanted + 1e-6);
    // What is left is too little for the trouble of going there.
    expect(sum(planned.map(added))).toBeGreaterThan(0.75 * wanted);
    expect(planned[0]?.shortOfBest).toBeLessThan(0.1);
    for (const night of planned) {
      // Nobody points a mount for half an hour.
      for (const visit of visitsOf(night)) expect(visit).toBeGreaterThanOrEqual(3_600_000);
      expect(night.shortOfBest).toBeGreaterThanOrEqual(0);
      for (const line of night.lines) expect(line.lacksHours).toBeGreaterThanOrEqual(0);
    }
    // Two weeks of a dozen targets take a minute of an idle machine.
  }, 600_000);
});
