import { describe, expect, it } from 'vitest';
import { answered } from '../../../src/gather/dialects/draft/classify/answered.js';
import { contradicting } from '../../../src/gather/dialects/draft/classify/consistency.js';
import { timelineOf } from '../../../src/gather/dialects/draft/classify/occurrences.js';
import type { EventName } from '../../../src/model/index.js';
import { kindLike, kindsOf, rounds } from './support/kinds.js';

const kinds = kindsOf(
  rounds(8, 900, (from, i) => [
    [from, 'the lead dozes'],
    [from + 60, 'the lead wakes'],
    [from + 400 + i, 'the lead dreams'],
    [from + 401 + i, 'the lead dreams'],
  ]),
);
const timeline = timelineOf(kinds);
const [dozes, wakes, dreams] = ['the lead dozes', 'the lead wakes', 'the lead dreams'].map((text) =>
  kindLike(kinds, text),
) as [(typeof kinds)[number], (typeof kinds)[number], (typeof kinds)[number]];
const taken = new Map<(typeof kinds)[number], EventName>([[wakes, 'guiding-rest-end']]);

describe('what is likely, and not sure by itself', () => {
  it('is borne out by the other side of the same thing, line by line', () => {
    const doubtful = [{ kind: dozes, event: 'guiding-rest-begin' }] as const;
    expect(answered(doubtful, taken, timeline)).toEqual(doubtful);
  });

  it('is not where its lines come out of turn', () => {
    expect(answered([{ kind: dreams, event: 'guiding-rest-begin' }], taken, timeline)).toEqual([]);
  });

  it('is not where the side is reported already, or by several', () => {
    const reported = new Map([...taken, [dreams, 'guiding-rest-begin'] as const]);
    expect(answered([{ kind: dozes, event: 'guiding-rest-begin' }], reported, timeline)).toEqual([]);
    const both = [dozes, dozes].map((kind) => ({ kind, event: 'guiding-rest-begin' }) as const);
    expect(answered(both, taken, timeline)).toEqual([]);
  });

  it('is not where the end would come first', () => {
    const begun = new Map([[wakes, 'guiding-rest-begin'] as const]);
    expect(answered([{ kind: dozes, event: 'guiding-rest-end' }], begun, timeline)).toEqual([]);
  });
});

describe('what two trains do at once', () => {
  const wheels = kindsOf(
    rounds(8, 900, (from, i) => [
      [from, 'tern turns its wheel'],
      ...(i === 0 ? [[from + 1, 'gull turns its wheel'] as const] : []),
      [from + 5, 'tern has its wheel in place'],
      ...(i === 0 ? [[from + 6, 'gull has its wheel in place'] as const] : []),
    ]),
  );
  const events = new Map<(typeof wheels)[number], EventName>(
    wheels.map((kind) => [kind, kind.examples[0]?.includes('turns') === true ? 'filter-begin' : 'filter-end']),
  );

  it('begins twice, and repeats nothing where the trains are known', () => {
    expect(wheels).toHaveLength(4);
    const trainOf = (kind: (typeof wheels)[number]): number => (kind.examples[0]?.startsWith('tern') === true ? 0 : 1);
    expect([...contradicting(events, timelineOf(wheels), trainOf)]).toEqual([]);
    expect(contradicting(events, timelineOf(wheels)).size).toBe(1);
  });
});
