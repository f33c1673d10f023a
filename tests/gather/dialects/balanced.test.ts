import { expect, it } from 'vitest';
import { balanced } from '../../../src/gather/dialects/draft/classify/balanced.js';
import { timelineOf } from '../../../src/gather/dialects/draft/classify/occurrences.js';
import { comesTooOften } from '../../../src/gather/dialects/draft/classify/usual-counts.js';
import type { EventName } from '../../../src/model/index.js';
import { kindLike, kindsOf, rounds, type Line } from './support/kinds.js';

const kinds = kindsOf(
  rounds(5, 900, (from, i): Line[] => [
    [from, 'lantern away'],
    [from + 30, 'lantern there'],
    ...(i < 2 ? [[from + 300, 'rudder on'] as const] : []),
    [from + 400, 'mast nap'],
    [from + 460, 'rudder anew'],
  ]),
);
const taken = new Map<(typeof kinds)[number], EventName>([
  [kindLike(kinds, 'lantern away'), 'star-gap-begin'],
  [kindLike(kinds, 'rudder on'), 'guiding-begin'],
  [kindLike(kinds, 'mast nap'), 'guiding-rest-begin'],
]);

it('is the other side of what comes as often, in turn, of two things that are as likely', () => {
  const tied = new Map<(typeof kinds)[number], readonly EventName[]>([
    [kindLike(kinds, 'lantern there'), ['star-gap-begin', 'star-gap-end']],
    [kindLike(kinds, 'rudder anew'), ['guiding-begin', 'guiding-rest-end']],
  ]);
  expect([...balanced(tied, taken, timelineOf(kinds))].map(([{ wording }, event]) => [wording, event])).toEqual([
    ['lantern there', 'star-gap-end'],
    ['rudder anew', 'guiding-rest-end'],
  ]);
});

it('stays open where both sides are reported already, or two would be', () => {
  const there = kindLike(kinds, 'lantern there');
  expect(balanced(new Map([[there, ['focus-begin', 'focus-end']]]), taken, timelineOf(kinds)).size).toBe(0);
  const other = new Map([...taken, [kindLike(kinds, 'rudder anew'), 'star-gap-end'] as const]);
  expect(balanced(new Map([[there, ['star-gap-begin', 'star-gap-end']]]), other, timelineOf(kinds)).size).toBe(0);
});

it('counts what comes in a night: a mount slews to a few targets, and cameras expose all night', () => {
  expect(comesTooOften('slew-begin', 80)).toBe(true);
  expect(comesTooOften('slew-begin', 4)).toBe(false);
  expect(comesTooOften('exposure-begin', 300)).toBe(false);
});
