import { describe, expect, it } from 'vitest';
import type { Goals, TargetGoals } from '../../../src/model/index.js';
import { goalLinesOf } from '../../../src/report/figures/goals.js';
import { altered } from '../../support/altered.js';
import { namedNight } from '../../support/nights.js';

const HOUR = 3_600_000;
const goalsOf = (name: string, goals: Partial<Goals>, aliases: string[] = []): TargetGoals => ({
  name,
  aliases,
  raDeg: 0,
  decDeg: 0,
  goals: { hours: {}, perTrain: {}, ...goals },
});
const tally = (kept: number) => ({ taken: kept, kept, doubtful: 0, lost: 0 });
const total = (target: string, filter: string, train: string, hours: number) => ({
  target,
  filter,
  train,
  frames: tally(1),
  ms: tally(hours * HOUR),
});

const night = (goals: TargetGoals[]) =>
  altered(namedNight('twin-night'), {
    gathered: { goals },
    accounts: {
      totals: [
        total('NGC281', 'H-alpha', 'heron', 2),
        total('NGC281', 'Ha', 'wren', 1),
        total('NGC281', 'OIII', 'wren', 3),
        total('M 33', 'L', 'wren', 1),
      ],
    },
  });
const short = (goals: TargetGoals[]) =>
  goalLinesOf(night(goals)).map(({ target, filter, train, keptMs, goalMs }) =>
    [target, filter, train, keptMs / HOUR, goalMs === null ? null : goalMs / HOUR].join(' '),
  );

describe('goals on one night', () => {
  it('find their target by an alias and their filter by its meaning, trains together or apart', () => {
    expect(short([goalsOf('NGC 281', { hours: { Ha: 12 }, perTrain: { wren: { OIII: 6 } } }, ['ngc 281'])])).toEqual([
      'NGC 281 Ha  3 12',
      'NGC 281 OIII wren 3 6',
      'M 33 L  1 ',
    ]);
  });

  it('share hours out by a ratio, and count all filters where the goal does', () => {
    expect(
      short([goalsOf('NGC 281', { ratio: { totalHours: 12, parts: { Ha: 2, OIII: 1 } }, totalHours: 20 })]),
    ).toEqual(['NGC 281 Ha  3 8', 'NGC 281 OIII  3 4', 'NGC 281   6 20', 'M 33 L  1 ']);
  });

  it('leave a filter that nobody asked for its own line, and say which were not taken', () => {
    const lines = goalLinesOf(night([goalsOf('NGC 281', { hours: { SII: 12, OIII: 4 } }, ['ngc281'])]));
    expect(lines.map(({ filter, goalMs, isTaken }) => [filter, goalMs === null, isTaken])).toEqual([
      ['SII', false, false],
      ['OIII', false, true],
      ['H-alpha', true, true],
      ['Ha', true, true],
      ['L', true, true],
    ]);
  });

  it('count what an archive has of the nights before, by the goals that stand there', () => {
    const earlier = {
      goals: [goalsOf('NGC 281', { hours: { Ha: 20 } }, ['ngc281'])],
      nights: [
        { date: '2026-09-01', totals: [total('ngc 281', 'Ha', 'heron', 5), total('M 33', 'L', 'heron', 2)] },
        { date: '2027-01-01', totals: [total('NGC 281', 'Ha', 'heron', 50)] },
      ],
    };
    const [ha] = goalLinesOf(night([]), earlier);
    expect([ha?.filter, (ha?.earlierMs ?? 0) / HOUR, (ha?.keptMs ?? 0) / HOUR, (ha?.goalMs ?? 0) / HOUR]).toEqual([
      'Ha',
      5,
      3,
      20,
    ]);
    expect(goalLinesOf(night([]), earlier).find(({ target }) => target === 'M 33')?.earlierMs).toBe(2 * HOUR);
  });

  it('are no more than what was kept where nobody named any', () => {
    expect(short([])).toEqual(['NGC281 H-alpha  2 ', 'NGC281 Ha  1 ', 'NGC281 OIII  3 ', 'M 33 L  1 ']);
  });
});
