import { expect, it } from 'vitest';
import { timelineOf } from '../../../src/gather/dialects/draft/classify/occurrences.js';
import { trainsIn } from '../../../src/gather/dialects/draft/classify/trains.js';
import { stateChange } from '../../../src/gather/dialects/draft/lexicon/state-changes.js';
import { drafted } from './support/drafted.js';
import { kindLike, kindsOf } from './support/kinds.js';

const T0 = Date.UTC(2026, 9, 14, 19);
const at = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString().slice(0, 19);

it('reads rows of what takes no time, where both columns hold the same', () => {
  const rows = Array.from({ length: 20 }, (_, i) => {
    const from = i * 340;
    return [
      `${at(from)},${at(from)},chip,wanted -10 C,${(12 - i * 1.15).toFixed(1)} C`,
      `${at(from + 5)},${at(from + 305)},exposure,M 33,300 s`,
      `${at(from + 307)},${at(from + 310)},dither,,3.1 px`,
    ];
  }).flat();
  const { rules } = drafted(['start,stop,what,detail,value', ...rows]).report;
  const reported = rules.map(({ events }) => events.map(({ event }) => event).join('+')).sort();
  expect(reported).toEqual(['cooler', 'dither-begin+dither-end', 'exposure-begin+exposure-end']);
});

it('takes a state of two filters for the way from one to the other', () => {
  const best = (wording: string): string | undefined =>
    [...(stateChange(wording) ?? [])].sort((a, b) => b[1] - a[1]).map(([event]) => event)[0];
  expect(best('# → L>Ha')).toBe('filter-begin');
  expect(best('L>Ha → #')).toBe('filter-end');
  expect(best('idle → L>Ha>R')).not.toBe('filter-begin');
});

it('takes a part for that of the train whose initial it begins with, where these differ', () => {
  const kinds = kindsOf([
    [0, 'E-SLOT turns'],
    [9, 'SE-SLOT turns'],
  ]);
  const [own, other] = [kindLike(kinds, 'E-'), kindLike(kinds, 'SE-')];
  const trainOf = (names: readonly string[]) => trainsIn([], kinds, timelineOf(kinds), new Map(), names);
  expect(trainOf(['EAST', 'SOUTH'])?.nameOf(own)).toBe('EAST');
  expect(trainOf(['EAST', 'SOUTH'])?.nameOf(other)).toBeNull();
  expect(trainOf(['EAST', 'ELM'])?.nameOf(own)).toBeNull();
});
