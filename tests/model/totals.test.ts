import { expect, it } from 'vitest';
import { totalIntegration } from '../../src/model/index.js';

it('sums targets in the order of the night, of each its filters, and of each filter the trains', () => {
  const of = (target: string, filter: string, train: string) => ({ target, filter, train, verdict: 'kept' as const });
  const frames = [
    of('M 33', 'L', 'heron'),
    of('M 33', 'L', 'wren'),
    // The companion is the first to change the filter, and the first at the next target.
    of('M 33', 'R', 'wren'),
    of('IC 1396', 'L', 'wren'),
    of('M 33', 'R', 'heron'),
    of('IC 1396', 'L', 'heron'),
  ];
  expect(totalIntegration(frames, { lengthMs: () => 1000 }).map((t) => [t.target, t.filter, t.train])).toEqual([
    ['M 33', 'L', 'heron'],
    ['M 33', 'L', 'wren'],
    ['M 33', 'R', 'heron'],
    ['M 33', 'R', 'wren'],
    ['IC 1396', 'L', 'heron'],
    ['IC 1396', 'L', 'wren'],
  ]);
});
