import { describe, expect, it } from 'vitest';
import { mosaicBalance } from '../../src/model/index.js';
import { parseGoals } from '../../src/config/index.js';
import { progressOf } from '../../src/progress/index.js';
import { hoursOf, summaryOf } from '../support/records.js';

const HOUR = 3_600_000;

function progress(yaml: string, ...targets: string[]) {
  const night = summaryOf(
    '2026-10-01',
    targets.map((target) => hoursOf(target, 'Ha', 'heron', 1)),
  );
  return progressOf([night], parseGoals('goals.yaml', yaml).book, () => null);
}

const goalOf = ({ targets }: ReturnType<typeof progress>, name: string) =>
  targets.find((t) => t.name === name)?.goalMs ?? null;

describe('the goal of a mosaic', () => {
  const goal = 'targets: [ { name: M 31, goals: { Ha: 10h } } ]';

  it('is shared among the panels that were imaged, and that is said', () => {
    const found = progress(goal, 'M 31 panel 1', 'M31 panel 2');
    expect(found.targets.map((t) => [t.goalMs, t.remainingMs])).toEqual([
      [5 * HOUR, 4 * HOUR],
      [5 * HOUR, 4 * HOUR],
    ]);
    expect(found.notices).toContainEqual(expect.objectContaining({ code: 'goal-shared-by-panels', count: 2 }));
  });

  it('is shared under a name that no catalogue has', () => {
    const found = progress(
      'targets: [ { name: Veil, goals: { total: 9h } } ]',
      'Veil panel 1',
      'Veil_panel-2',
      'Veil tile 3',
    );
    expect(found.targets.map((t) => t.goalMs)).toEqual([3 * HOUR, 3 * HOUR, 3 * HOUR]);
  });

  it('stays with the whole where that was imaged', () => {
    const found = progress(goal, 'M 31', 'M 31 panel 1');
    expect([goalOf(found, 'M 31'), goalOf(found, 'M 31 panel 1')]).toEqual([10 * HOUR, null]);
    expect(found.notices.map((n) => n.code)).not.toContain('goal-shared-by-panels');
  });

  it('leaves alone a panel with a goal of its own', () => {
    const found = progress(
      'targets: [ { name: M 31, goals: { Ha: 10h } }, { name: M 31 panel 1, goals: { Ha: 2h } } ]',
      'M 31 panel 1',
      'M 31 panel 2',
    );
    expect([goalOf(found, 'M 31 panel 1'), goalOf(found, 'M 31 panel 2')]).toEqual([2 * HOUR, 10 * HOUR]);
  });
});

describe('the balance of a mosaic', () => {
  const share = (target: string, filter: string, hours: number) => ({ target, filter, keptMs: hours * HOUR });

  it('names the panels that lag, filter by filter, whatever they are called', () => {
    expect(
      mosaicBalance([
        share('NGC253_P1', 'Ha', 1),
        share('NGC 253 panel 1', 'Ha', 1),
        share('NGC 253 panel 2', 'Ha', 1.2),
        share('NGC253_P1', 'OIII', 1),
        share('NGC253_P2', 'OIII', 0.95),
        share('M 33', 'Ha', 9),
      ]),
    ).toEqual([
      'Mosaic of NGC 253, panels 1 and 2, kept: Ha 2.0 h and 1.2 h (panel 2 lacks 48 min); OIII even, 57 min each or more.',
    ]);
  });

  it('is not spoken of where one panel was imaged', () => {
    expect(mosaicBalance([share('M31-P3', 'L', 2), share('M 33', 'L', 1)])).toEqual([]);
  });
});
