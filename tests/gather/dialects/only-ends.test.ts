import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { shortCodes } from '../../../src/gather/dialects/draft/legend-words.js';
import { drafted } from './support/drafted.js';

const AT = Date.UTC(2026, 9, 14, 20);
const stamp = (seconds: number): string => new Date(AT + seconds * 1000).toISOString().slice(0, 19);

it('distinguishes two trains whose exposures are only logged at the end, with a length in minutes', () => {
  const lines = Array.from({ length: 20 }, (_, i) => [
    [i * 245, `${stamp(i * 245)} heron: exposure of 4 min in Ha finished`] as const,
    [i * 95 + 3, `${stamp(i * 95 + 3)} wren: exposure of 1 min 30 s in L finished`] as const,
  ])
    .flat()
    .sort((a, b) => a[0] - b[0])
    .map(([, line]) => line);
  const { rules } = drafted(lines).report;
  expect(rules.map(({ events, train, lasted }) => [events[0]?.event, train, lasted])).toEqual([
    ['exposure-end', 'heron', 'seconds * 60'],
    ['exposure-end', 'wren', 'duration(seconds)'],
  ]);
});

it('hears in the name of a field that what it names is over', () => {
  const records = Array.from({ length: 10 }, (_, i) => [
    { time: stamp(i * 700), who: 'heron', done: 'exposure', seconds: 600, filter: 'Ha', file: `m33_${i}.fits` },
    { time: stamp(i * 700 + 6), who: 'mount', done: 'dither', seconds: 4 },
    { time: stamp(i * 700 + 30), who: 'heron', done: 'filter change', seconds: 5, filter: 'Ha' },
  ]).flat();
  const { rules } = drafted(records.map((record) => JSON.stringify(record))).report;
  expect(rules.map(({ events }) => events[0]?.event).sort()).toEqual(['dither-end', 'exposure-end', 'filter-end']);
});

it('reads short codes that a head explains one a line, digits and all', () => {
  const head = [
    '* ab  shutter open: filter, seconds',
    '* fe  shutter closed',
    '* d1  dither begins',
    '* d2  dither ends',
  ];
  expect(shortCodes(head).size).toBe(0);
  const whole = [...head, '* a1  waits until the guiding is calm', '* a2  guiding calm'];
  expect(shortCodes(whole).get('ab')).toBe('shutter open');
  const night = Array.from({ length: 15 }, (_, i) => [
    `${stamp(i * 400)} h ab Ha 300`,
    `${stamp(i * 400 + 300)} h fe`,
    `${stamp(i * 400 + 310)} h d1 2.5`,
    `${stamp(i * 400 + 314)} h d2`,
    `${stamp(i * 400 + 314)} h a1`,
    `${stamp(i * 400 + 330)} h a2`,
  ]).flat();
  const { rules } = drafted([...whole, ...night]).report;
  const of = (code: string): string | undefined =>
    rules.find(({ examples }) => examples[0]?.includes(`h ${code}`))?.events[0]?.event;
  expect(['ab', 'fe', 'd1', 'd2', 'a1', 'a2'].map(of)).toEqual([
    'exposure-begin',
    'exposure-end',
    'dither-begin',
    'dither-end',
    'settling-begin',
    'settling-end',
  ]);
});

it('takes the dates above rows for their time, and no number of the rows for a count', () => {
  const file = join(dirname(fileURLToPath(import.meta.url)), 'strangers', 'open', 'noctivagant.txt');
  const lines = readFileSync(file, 'utf8').split('\n');
  expect(drafted(lines).yaml).toContain("time:\n  pattern: '[{day}/{month}/{year} {hour}.{minute}.{second}");
});

it('takes what has lasted so long and is over for an exposure, and a measure of its stars for no refocus', () => {
  const lines = Array.from({ length: 30 }, (_, i) => [
    ...(i % 10 === 0 ? [`${stamp(i * 130 - 8)} heron  focus done in 90 s: 2.28 px at 11910`] : []),
    `${stamp(i * 130 + 120)} heron  finished 120 s R of M 101 -> heron_M101_R_${i}.fits`,
    `${stamp(i * 130 + 122)} heron  ${900 + i} stars, fwhm 2.${10 + i} px`,
  ]).flat();
  const { rules } = drafted(lines).report;
  const of = (text: string): (string | undefined)[] =>
    rules.flatMap(({ examples, events }) => (examples[0]?.includes(text) ? [events[0]?.event] : []));
  expect(of('finished')).toEqual(['exposure-end']);
  expect(of('focus done')).toEqual(['focus-end']);
  expect(of('stars, fwhm')).toEqual([]);
});

it('finds the date in a head that has a field called like that of the times', () => {
  const records = Array.from({ length: 20 }, (_, i) => {
    const time = (seconds: number): string => new Date(AT + (i * 320 + seconds) * 1000).toISOString().slice(11, 19);
    return [`time=${time(0)} what=shutter_open seconds=300`, `time=${time(300)} what=shutter_closed`];
  }).flat();
  const { yaml } = drafted(['log=night site="Cierzo Hill" date=2026-10-14 time=local', ...records]);
  expect(yaml).toContain('from line 1');
  expect(yaml).not.toContain('date: session');
});
