import { expect, it } from 'vitest';
import { listedForms } from '../../../src/gather/dialects/draft/legend-lists.js';
import { drafted } from './support/drafted.js';

const HEAD = [
  '; bel shutter, opg frame kept, hop dither, kalm guiding star settles (all trains)',
  '; scp focusing, wis wheel turns. > begins, < ends',
];
const T0 = Date.UTC(2026, 9, 14, 20);
const at = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString().slice(0, 19).replace('T', ' ');
const LINES = [
  ...HEAD,
  ...Array.from({ length: 24 }, (_, i) => [
    ...(i % 6 === 0
      ? [
          `${at(i * 200 - 90)} wis> ${i % 12 === 0 ? 'Ha' : 'OIII'}`,
          `${at(i * 200 - 86)} wis< ${i % 12 === 0 ? 'Ha' : 'OIII'}`,
          `${at(i * 200 - 85)} scp>`,
          `${at(i * 200 - 5)} scp<`,
        ]
      : [
          `${at(i * 200 - 20)} hop>`,
          `${at(i * 200 - 17)} hop<`,
          `${at(i * 200 - 16)} kalm>`,
          `${at(i * 200 - 4)} kalm<`,
        ]),
    `${at(i * 200)} bel> 150`,
    `${at(i * 200 + 150)} bel<`,
    `${at(i * 200 + 152)} opg n${i}.fits`,
  ]).flat(),
];

it('reads short forms that the head explains in lists with commas, and what signs mean', () => {
  const rules = drafted(LINES).report.rules.map(({ examples, events }) => [
    (examples[0] ?? '').split(' ')[0],
    events.map(({ event }) => event).join(' '),
  ]);
  expect(Object.fromEntries(rules)).toMatchObject({
    'bel>': 'exposure-begin',
    'bel<': 'exposure-end',
    'kalm>': 'settling-begin',
    'kalm<': 'settling-end',
    'scp<': 'focus-end',
    opg: 'frame-saved',
  });
});

it('takes no sentence with commas for such a list', () => {
  const wordings = ['exp >', 'set <', 'gui >'];
  const prose = ['exp of the night, set in the evening, gui is on, all is fine, see the notes, then sleep'];
  expect(listedForms(prose, wordings).size).toBe(0);
});
