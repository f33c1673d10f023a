import { describe, expect, it } from 'vitest';
import { interval } from '../../../src/model/index.js';
import { compare, referenceOf } from '../../../src/reconstruct/clocks/compare.js';
import type { TrainStreams } from '../../../src/reconstruct/clocks/streams.js';
import { seeded } from '../../support/generator/random.js';

const NOTHING = {
  headers: [],
  readyMs: [],
  sharedMs: new Map(),
  moves: [],
  settlings: [],
  headersAhead: null,
  isVouched: false,
  backwards: null,
  jump: null,
  oddLengths: [],
};

/**
 * Both trains dither every 15.5 minutes and begin together; after every sixth dither heron refocuses for 100 s, and wren
 * waits for that. Readouts differ by up to `jitterMs`.
 */
function night(aheadMs: number, jitterMs: number): { heron: TrainStreams; wren: TrainStreams } {
  const random = seeded(4);
  const jitter = (): number => random.whole(0, jitterMs);
  const [heron, wren, readyMs, moves, settlings] = [[], [], [], [], []] as [
    { beginMs: number; endMs: number; workMs?: number }[],
    { beginMs: number; endMs: number }[],
    number[],
    ReturnType<typeof interval>[],
    ReturnType<typeof interval>[],
  ];
  const take = (list: typeof heron, count: number, lengthMs: number, fromMs: number, workMs?: number): number => {
    let atMs = fromMs;
    for (let i = 0; i < count; i++) {
      list.push({ beginMs: atMs, endMs: atMs + lengthMs, ...(i === 0 && workMs !== undefined ? { workMs } : {}) });
      atMs += lengthMs + 2500 + jitter();
    }
    return atMs;
  };
  let atMs = Date.parse('2026-10-14T19:40:00Z');
  let workMs: number | undefined;
  for (let cycle = 1; cycle <= 33; cycle++) {
    const moveMs = Math.max(take(heron, 3, 300_000, atMs, workMs), take(wren, 5, 180_000, atMs));
    readyMs.push(moveMs + aheadMs);
    moves.push(interval(moveMs, moveMs + 3000));
    settlings.push(interval(moveMs + 3000, moveMs + 14_000));
    workMs = cycle % 6 === 0 ? moveMs + 15_000 : undefined;
    atMs = moveMs + 15_000 + (workMs === undefined ? 0 : 103_000) + jitter();
  }
  const own = wren.map(({ beginMs, endMs }) => ({ beginMs: beginMs + aheadMs, endMs: endMs + aheadMs }));
  return {
    heron: { ...NOTHING, train: 'heron', log: heron, moves, settlings },
    wren: { ...NOTHING, train: 'wren', log: own, readyMs },
  };
}

describe('a companion that waits for the pilot’s refocus', () => {
  it.each([200, 600])(
    'has the clock that it has, not one a whole cycle off: readouts alike within %i ms',
    (jitterMs) => {
      for (const aheadMs of [0, 47_000]) {
        const { heron, wren } = night(aheadMs, jitterMs);
        const clock = compare(wren, 'log', wren.log, referenceOf(heron));
        expect(clock?.isKnown).toBe(true);
        expect(Math.abs((clock?.aheadMs ?? NaN) - aheadMs)).toBeLessThan(2000);
      }
    },
  );
});
