import { describe, expect, it } from 'vitest';
import type { FreeStretch, PlannedNight } from '../../src/model/index.js';
import { leftAfter, planNights, type PlanQuestion } from '../../src/plan/index.js';
import { fakeNight, HERON, question, target, WREN } from './fake-nights.js';

const only = (asked: PlanQuestion): PlannedNight => {
  const [night] = planNights(asked);
  if (!night) throw new Error('no night');
  return night;
};
const hours = ({ span }: FreeStretch): number => (span.endMs - span.startMs) / 3_600_000;
const reasons = ({ free }: PlannedNight) =>
  free.map((one) => [
    hours(one),
    Object.fromEntries(one.why.map(({ targets, reasons: why }) => [targets.join(), why])),
  ]);

describe('the hours that a plan leaves free', () => {
  it('are before a target rises and after it has set', () => {
    const night = only(question([target('A', { Ha: 20 })], [{ slots: 12, up: [[3, 8]] }]));
    expect(reasons(night)).toEqual([
      [1.5, { A: ['low'] }],
      [2, { A: ['low'] }],
    ]);
  });

  it('are moonlit for broadband, and a target that has set besides is said to have', () => {
    const asked = question([target('A', { L: 20 })], [{ slots: 12, moon: [6, 12], up: [[0, 10]] }]);
    expect(reasons(only(asked))).toEqual([[3, { A: ['moon', 'low'] }]]);
  });

  it('are twilight for broadband where narrow bands need nothing', () => {
    const night = fakeNight(1, { slots: 10 });
    const slots = night.slots.map((slot, at) => ({
      ...slot,
      targets: slot.targets.map((one) =>
        at < 2 ? { ...one, worth: () => 0, moonless: () => 0, bar: () => 'twilight' as const } : one,
      ),
    }));
    const asked = { ...question([target('A', { L: 20 })], []), nights: [{ ...night, slots }] };
    expect(reasons(only(asked))).toEqual([[1, { A: ['twilight'] }]]);
  });

  it('come after goals that are reached, and before those that are taken later', () => {
    const night = only(
      question(
        [target('A', { L: 4.2 }), target('B', { L: 2.5 })],
        [
          {
            slots: 20,
            moon: [6, 12],
            up: [
              [0, 6],
              [0, 20],
            ],
          },
        ], // prettier-ignore
        { trains: [HERON, WREN] },
      ),
    );
    expect(night.blocks.map((b) => b.target)).toEqual(['A', 'B']);
    const moonlit = night.free[0];
    expect(moonlit?.why).toContainEqual({ targets: ['A'], reasons: ['reached', 'low'] });
    expect(moonlit?.why.find(({ targets }) => targets.includes('B'))?.reasons[0]).toBe('later');
    const last = night.free.at(-1);
    expect(last?.why).toContainEqual({ targets: ['B'], reasons: ['reached'] });
  });

  it('are not worth the trouble where there is a little to be had for half an hour', () => {
    const asked = question(
      [target('A', { Ha: 0.3 })],
      [{ slots: 6, up: [[2, 3]] }], // prettier-ignore
    );
    const night = only(asked);
    expect(night.blocks).toEqual([]);
    expect(reasons(night)).toEqual([[3, { A: ['low', 'effort', 'low'] }]]);
    expect(leftAfter(asked, [night])).toMatchObject([{ target: 'A', why: 'effort' }]);
  });

  it('are not worth the trouble for the Moon where they would be without it', () => {
    // Half an hour before the Moon rises, and what goes on under it would be a visit of three hours without it.
    const before = question([target('A', { L: 20 })], [{ slots: 6, moon: [1, 6] }]);
    expect(reasons(only(before))).toEqual([[3, { A: ['moon-effort', 'moon'] }]]);
    expect(leftAfter(before, planNights(before))).toMatchObject([{ target: 'A', why: 'moon-effort' }]);
    // A narrow band that the Moon leaves a third of, but for half an hour.
    const dimmed = question([target('A', { Ha: 20 })], [{ slots: 3, moon: [1, 3] }], { trains: [HERON] });
    expect(reasons(only(dimmed))).toEqual([[1.5, { A: ['moon-effort'] }]]);
    // As short without the Moon: it changes nothing.
    const short = question([target('A', { Ha: 20 })], [{ slots: 1 }], { trains: [HERON] });
    expect(reasons(only(short))).toEqual([[0.5, { A: ['effort'] }]]);
  });

  it('have no train for a filter that only another has', () => {
    const trains = [HERON, WREN];
    const lines = [{ filter: 'Ha', train: 'crane', hours: 5, share: 1 }];
    const asked = question([{ ...target('A', {}), lines }], [{ slots: 4 }], { trains });
    expect(reasons(only(asked))).toEqual([[2, { A: ['no-train'] }]]);
    expect(leftAfter(asked, planNights(asked))).toMatchObject([{ target: 'A', filter: 'Ha', why: 'no-train' }]);
  });

  it('need nothing where nothing is asked for', () => {
    expect(only(question([], [{ slots: 4 }])).free).toMatchObject([{ why: [] }]);
    expect(only(question([target('A', { Ha: 3 })], [{ slots: 0 }])).free).toEqual([]);
  });
});
