import { describe, expect, it } from 'vitest';
import { parseGoals } from '../../src/config/index.js';
import { trainsToPlan } from '../../src/plan-trains.js';
import { progressOf } from '../../src/progress/index.js';
import { hoursOf, summaryOf } from '../support/records.js';

/** Three pairs of names for the two trains of one mount, the oldest first. */
const NIGHTS = [
  ['2026-09-01', 'kite', 'lark'],
  ['2026-10-01', 'left', 'right'],
  ['2026-11-01', 'heron', 'wren'],
].map(([date = '', first = '', second = '']) =>
  summaryOf(date, [hoursOf('M 33', 'L', first, 2), hoursOf('M 33', 'R', second, 2)]),
);
const { book } = parseGoals('goals.yaml', 'targets: [ { name: M 33, goals: { L: 8h } } ]');
const progress = progressOf(NIGHTS, book, () => 'Cierzo Hill');
const plan = (wanted?: readonly string[]) => trainsToPlan(NIGHTS, progress, book, { wanted });

describe('the trains of a plan', () => {
  it('are those of the latest night: six names of two trains are not six trains on one mount', () => {
    expect(progress.trains).toHaveLength(6);
    const { trains, sentence } = plan();
    expect(trains.map(({ id }) => id).sort()).toEqual(['heron', 'wren']);
    expect(sentence).toMatch(/latest night: heron and wren\. Not .*kite.*right.*: name trains with --trains/);
  });

  it('are those that are asked for', () => {
    expect(plan(['kite']).trains.map(({ id }) => id)).toEqual(['kite']);
    expect(plan(['kite']).sentence).toContain('the train asked for: kite');
    expect(() => plan(['crane'])).toThrow(/no night of the archive’s site has a train crane; it has .*heron/);
  });
});
