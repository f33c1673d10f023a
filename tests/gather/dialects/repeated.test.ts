import { expect, it } from 'vitest';
import { repeated } from '../../../src/gather/dialects/draft/classify/repeated.js';
import type { EventName } from '../../../src/model/index.js';
import { kindsOf, rounds } from './support/kinds.js';

const reported = (event: EventName, apart: number): string[] => {
  const kinds = kindsOf(
    rounds(4, 3000, (from) => [
      [from, `> pilot let go`],
      [from + apart, `< pilot slack`],
    ]),
  );
  const score = (wording: string): number => (wording.includes('slack') ? 1 : 2);
  return repeated(new Map(kinds.map((kind) => [kind, event])), ({ wording }) => score(wording)).map(
    ({ wording }) => wording,
  );
};

it('finds the answer that repeats its command', () => {
  expect(reported('guiding-end', 0.2)).toEqual(['< pilot slack']);
});

it('leaves what comes later, and what two cameras may do at once', () => {
  expect(reported('guiding-end', 90)).toEqual([]);
  expect(reported('filter-begin', 0.2)).toEqual([]);
});
