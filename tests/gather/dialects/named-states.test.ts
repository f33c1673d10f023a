import { expect, it } from 'vitest';
import { withoutBullets } from '../../../src/gather/dialects/draft/kinds/bullets.js';
import { drafted } from './support/drafted.js';
import { kindsOf } from './support/kinds.js';

const AT = Date.UTC(2026, 9, 14, 20);

/** What each rule of a draft makes of the first of its lines. */
function eventsRead(lines: readonly string[]): ReadonlyMap<string, string> {
  const { rules } = drafted(lines).report;
  return new Map(rules.map(({ examples, events }) => [examples[0] ?? '', events[0]?.event ?? '']));
}

/** Records whose fields are called after the things, each with the state that it has come to. */
const BY_NAME = Array.from({ length: 10 }, (_, i) => {
  const at = (seconds: number): string => `t=${AT + (i * 900 + seconds) * 1000}`;
  return [
    ...(i % 5 === 0
      ? [
          `${at(-60)} unit=mount slew=begin obj=M33`,
          `${at(-20)} unit=mount slew=end`,
          `${at(-15)} unit=mount centre=begin`,
          `${at(-3)} unit=mount centre=end`,
        ]
      : []),
    `${at(0)} unit=mount dither=begin`,
    `${at(4)} unit=mount dither=end`,
    `${at(5)} unit=guide settling=1`,
    `${at(14)} unit=guide settling=0`,
    `${at(20)} unit=heron shutter=open len=600 filter=Ha`,
    `${at(620)} unit=heron shutter=closed`,
  ];
}).flat();

it('takes records apart by which thing they name, however seldom it is', () => {
  const events = eventsRead(BY_NAME);
  const of = (text: string): (string | undefined)[] =>
    [...events].flatMap(([example, event]) => (example.includes(text) ? [event] : []));
  expect(of('slew=begin')).toEqual(['slew-begin']);
  expect(of('slew=end')).toEqual(['slew-end']);
  expect(of('centre=begin')).toEqual(['centre-begin']);
  expect(of('dither=begin')).toEqual(['dither-begin']);
  expect(of('dither=end')).toEqual(['dither-end']);
  expect(of('settling=0')).toEqual(['settling-end']);
});

/** A table with a remark for all but its exposures, which say by their action alone what they are. */
const QUIET = [
  'date;time;part;action;target;filter;sub_s;file;remark',
  ...Array.from({ length: 24 }, (_, i) => {
    const row = (seconds: number, cells: string): string => {
      const [date, time] = new Date(AT + (i * 330 + seconds) * 1000).toISOString().slice(0, 19).split('T');
      return `${date ?? ''};${time ?? ''};${cells}`;
    };
    return [
      row(300, `heron;exposure finished;M33;Ha;300;m33_${i}.fits;`),
      row(302, `heron;exposure finished;M33;Ha;300;m33_${i}b.fits;`),
      row(305, 'mount;dither;;;;;started'),
      row(309, 'mount;dither;;;;;done'),
    ].filter((_line, nth) => nth !== 1 || i % 2 === 0);
  }).flat(),
];

it('reads what all rows without a remark say alike', () => {
  const { rules } = drafted(QUIET).report;
  const exposures = rules.filter(({ examples }) => examples[0]?.includes('exposure finished'));
  expect(exposures.map(({ events, fields }) => [events[0]?.event, fields.seconds])).toEqual([
    ['exposure-end', 'sub_s'],
  ]);
});

it('counts the bullet off what names the device', () => {
  const kinds = kindsOf(
    ['/ heron guiding stopped', '/ heron dither done'].map((text, i): [number, string] => [i, text]),
  );
  const bare = withoutBullets(kinds.map((kind) => ({ ...kind, lead: '/ heron'.length })));
  expect(bare.map(({ wording, lead }) => wording.slice(0, lead))).toEqual(['heron', 'heron']);
});

it('reads the values in the cells of a table that states what all devices do', () => {
  const rows = Array.from({ length: 12 }, (_, i) => {
    const at = (seconds: number): string => new Date(AT + (i * 2000 + seconds) * 1000).toISOString();
    return [
      [at(0), 'waiting for dither', 'tracking', 'guiding'],
      [at(1), 'waiting for dither', 'dithering', 'guiding'],
      [at(4), 'waiting for dither', 'tracking', 'guiding'],
      [at(5), 'waiting for dither', 'tracking', 'settling'],
      [at(20), 'waiting for dither', 'tracking', 'guiding'],
      ...[0, 1, 2].flatMap((nth) => [
        [at(22 + nth * 610), 'exposing 600 s Ha', 'tracking', 'guiding'],
        [at(622 + nth * 610), 'reading out', 'tracking', 'guiding'],
        [at(625 + nth * 610), `saved M33_heron_Ha_${3 * i + nth}.fits`, 'tracking', 'guiding'],
      ]),
    ];
  }).flat();
  const lines = [['UTC', 'heron', 'mount', 'guider'], ...rows].map((cells) => cells.join('\t'));
  const { rules } = drafted(lines).report;
  const found = rules.map(({ events, when }) => [events[0]?.event, typeof when === 'string' ? when : when.now]);
  expect(found).toContainEqual(['exposure-begin', '^exposing (?<seconds>.+) s (?<filter>.+)$']);
  expect(found).toContainEqual(['frame-saved', '^saved (?<file>.+)$']);
});
