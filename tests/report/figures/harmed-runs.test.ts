import { describe, expect, it } from 'vitest';
import type { CauseKind, JudgedFrame, Verdict } from '../../../src/model/index.js';
import { interval } from '../../../src/model/index.js';
import { harmedRuns, runOfEach } from '../../../src/report/figures/harmed-runs.js';
import { light } from '../../support/events.js';

const MINUTE = 60_000;

/** A light that begins in the given minute. */
function frame(
  id: string,
  minute: number,
  verdict: Verdict,
  kinds: readonly CauseKind[] = [],
  train = 'heron',
): JudgedFrame {
  const base = light(train, '21:00:00', 60);
  const exposure = interval(base.exposure.startMs + minute * MINUTE, base.exposure.startMs + (minute + 1) * MINUTE);
  const cause = {
    span: exposure,
    overlapMs: MINUTE,
    certainty: 'measured' as const,
    verdict: 'doubtful' as const,
    by: 'sky' as const,
    evidence: 'as invented',
    sources: [],
  };
  return {
    ...base,
    id,
    exposure,
    target: 'M 33',
    filter: 'L',
    verdict,
    causes: kinds.map((kind) => ({ kind, ...cause })),
    cleared: [],
    sky: null,
    guiding: null,
  };
}

const idsOf = (lights: readonly JudgedFrame[]): string[][] =>
  harmedRuns(lights).map(({ frames }) => frames.map(({ id }) => id));

describe('frames that are not kept', () => {
  it('stand together where one lasting reason spans neighbours of a train', () => {
    const lights = [
      frame('a', 0, 'kept'),
      ...['b', 'c', 'd'].map((id, i) => frame(id, i + 1, 'doubtful', ['low'])),
      ...['x', 'y'].map((id, i) => frame(id, i + 2, 'doubtful', ['low'], 'wren')),
    ];
    expect(idsOf(lights)).toEqual([['b', 'c', 'd'], ['x'], ['y']]);
  });

  it('stand apart after a kept frame, for another verdict, and for other reasons', () => {
    const low = (id: string, minute: number): JudgedFrame => frame(id, minute, 'doubtful', ['low']);
    const lights = [
      ...[low('a', 0), low('b', 1), low('c', 2), frame('d', 3, 'kept'), low('e', 4)],
      ...[5, 6, 7].map((minute) => frame(`f${minute}`, minute, 'lost', ['dimmed'])),
      ...[8, 9, 10].map((minute) => frame(`g${minute}`, minute, 'doubtful', ['dimmed', 'low'])),
    ];
    expect(idsOf(lights)).toEqual([['a', 'b', 'c'], ['e'], ['f5', 'f6', 'f7'], ['g8', 'g9', 'g10']]);
  });

  it('stand apart for an event, which has its own evidence for every frame', () => {
    const lights = [0, 1, 2, 3].map((minute) => frame(`a${minute}`, minute, 'lost', ['guiding-off']));
    expect(idsOf(lights)).toHaveLength(4);
  });

  it('stand together where all are trailed and no interruption is known, apart where one is', () => {
    const trailed = [0, 1, 2, 3].map((minute) => frame(`a${minute}`, minute, 'lost', ['trailed']));
    expect(idsOf(trailed)).toHaveLength(1);
    const known = trailed.map((f) => ({
      ...f,
      causes: f.causes.map((c) => ({ ...c, span: interval(f.exposure.startMs, f.exposure.startMs + 9000) })),
    }));
    expect(idsOf(known as JudgedFrame[])).toHaveLength(4);
  });

  it('are each found in exactly one run, and the runs are in order of their begin', () => {
    const lights = [
      ...[0, 2, 4, 6].map((minute) => frame(`h${minute}`, minute, 'doubtful', ['twilight'])),
      ...[1, 3, 5].map((minute) => frame(`w${minute}`, minute, minute === 3 ? 'kept' : 'doubtful', ['low'], 'wren')),
    ];
    const runs = harmedRuns(lights);
    const begins = runs.map(({ first }) => first.exposure.startMs);
    expect(begins).toEqual([...begins].sort((a, b) => a - b));
    const runOf = runOfEach(runs);
    expect([...runOf.keys()].sort()).toEqual(['h0', 'h2', 'h4', 'h6', 'w1', 'w5']);
    expect(runOf.get('h6')?.first.id).toBe('h0');
  });
});
