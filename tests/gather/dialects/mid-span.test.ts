import { expect, it } from 'vitest';
import { withoutAmid } from '../../../src/gather/dialects/draft/classify/mid-span.js';
import { timelineOf } from '../../../src/gather/dialects/draft/classify/occurrences.js';
import type { EventName } from '../../../src/model/index.js';
import { drafted } from './support/drafted.js';
import { kindLike, kindsOf, rounds } from './support/kinds.js';

const kinds = kindsOf(
  rounds(4, 3000, (from) => [
    [from, 'plating opens'],
    [from + 9, 'plating residue'],
    [from + 18, 'plating residue'],
    [from + 27, 'plating shuts'],
    [from + 60, 'plating pictures'],
  ]),
);

it('is said of what only names a thing, and stands between what begins and what ends it', () => {
  const said = (begin: number, end: number): Map<EventName, number> =>
    new Map([
      ['centre-begin', begin],
      ['centre-end', end],
      ['cooler', 0.5],
    ]);
  const own = new Map([
    [kindLike(kinds, 'plating opens'), said(4.4, 0)],
    [kindLike(kinds, 'plating residue'), said(2.5, 2.2)],
    [kindLike(kinds, 'plating shuts'), said(1, 4.4)],
    [kindLike(kinds, 'plating pictures'), said(2.5, 2.2)],
  ]);
  withoutAmid(own, timelineOf(kinds));
  expect([...own.values()].map((evidence) => [...evidence.keys()])).toEqual([
    ['centre-begin', 'centre-end', 'cooler'],
    ['cooler'],
    ['centre-begin', 'centre-end', 'cooler'],
    ['centre-begin', 'centre-end', 'cooler'],
  ]);
});

it('may be named by a path of two words with hyphens', () => {
  const topics = ['heron/shutter/opens', 'heron/shutter/shuts', 'heron/file/saved', 'heron/waits-for-dither'];
  const lines = Array.from({ length: 80 }, (_, i) => {
    const clock = new Date(Date.UTC(2026, 9, 14, 20, 0, 60 * Math.floor(i / 4) + (i % 4))).toISOString();
    return `${clock.slice(0, 19).replace('T', ' ')} ${topics[i % 4]} ${i % 4 === 2 ? `a${i}.fits` : '-'}`;
  });
  const { report } = drafted(lines);
  const waits = [...report.rules, ...report.unused].find(({ when }) => String(when).includes('waits'));
  expect(waits?.count).toBe(20);
});
