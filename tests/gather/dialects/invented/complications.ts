import { DateTime } from 'luxon';
import type { Stamped, StampStyle, Unstamped } from './stamps.js';

const stamp = (atMs: number): string =>
  DateTime.fromMillis(atMs, { zone: 'Europe/Madrid', locale: 'en' }).toFormat('yyyy-MM-dd HH:mm:ss.SSS');
const ofDay = (atMs: number): string => stamp(atMs).slice(11, 19);
const day = (atMs: number): string => stamp(atMs).slice(0, 10);
const iso = (atMs: number): string => new Date(atMs).toISOString();
const plain = ({ atMs, text }: Unstamped): string => `${stamp(atMs)} INFO ${text}`;
const startOf = (lines: readonly Unstamped[]): number => lines[0]?.atMs ?? 0;

function style(id: string, lines: (all: readonly Unstamped[]) => readonly string[], name?: string): StampStyle {
  return {
    id,
    write: (all): Stamped => ({ name: name ?? 'log.log', lines: lines(all) }),
  };
}

/** What a program prints when it starts: when it was built is no night. */
const banner = (startMs: number): string[] => [
  '==============================',
  ' hutrunner v2.14.3 (build 20240301-1733)',
  ' compiled 2024-03-01 17:33:10',
  ` started ${ofDay(startMs)}`,
  '==============================',
];

/** Ordinary logs with one complication each, in which a draft must still read everything. */
export const COMPLICATIONS: readonly StampStyle[] = [
  style('sentences-in-objects', (all) =>
    all.map(({ atMs, text }) => JSON.stringify({ at: iso(atMs), level: 2, says: text })),
  ),
  style('sentences-in-pairs', (all) => all.map(({ atMs, text }) => `ts="${iso(atMs)}" level=info says="${text}"`)),
  style(
    'sentences-in-cells',
    (all) => ['"Time","Level","Message"', ...all.map(({ atMs, text }) => `"${stamp(atMs)}","INFO","${text}"`)],
    'log.csv',
  ),
  style('sentences-in-a-document', (all) => [
    JSON.stringify(
      all.map(({ atMs, text }) => ({ at: iso(atMs), says: text })),
      null,
      2,
    ),
  ]),
  style('sentences-in-blocks', (all) =>
    all.flatMap(({ atMs, text }, i) => [`[entry ${i + 1}]`, `time = ${stamp(atMs)}`, `says = ${text}`, '']),
  ),
  style('colours-of-a-terminal', (all) =>
    all.map(
      ({ atMs, text }, i) => `\u001b[38;5;${i % 200}m${stamp(atMs)}\u001b[0m [\u001b[1;34mhut\u001b(B\u001b[m] ${text}`,
    ),
  ),
  {
    id: 'build-date-date-in-name',
    write: (all) => ({
      name: `run-${day(startOf(all))}.log`,
      lines: [...banner(startOf(all)), ...all.map(({ atMs, text }) => `${ofDay(atMs)} ${text}`)],
    }),
  },
  style('build-date-above-the-date', (all) => [
    ...banner(startOf(all)),
    `session of ${day(startOf(all))}`,
    ...all.map(({ atMs, text }) => `${ofDay(atMs)} ${text}`),
  ]),
  style('two-forms-of-stamp', (all) =>
    all.map((line) =>
      /focus|filter|wind/.test(line.text)
        ? `${stamp(line.atMs).replace(/^(\d+)-(\d+)-(\d+)/, '$3/$2/$1')} | devices | ${line.text}`
        : plain(line),
    ),
  ),
  style('some-lines-without-the-day', (all) =>
    all.map((line) => (/wind|focus/.test(line.text) ? `${ofDay(line.atMs)} ${line.text}` : plain(line))),
  ),
  style('two-clocks-of-two-zones', (all) => [
    'left: the wall, right: UT',
    ...all.map(({ atMs, text }) => `[${stamp(atMs).slice(0, 19)} | ${iso(atMs).slice(11, 23)} UT] ${text}`),
  ]),
  style('topics', (all) => all.map(({ atMs, text }) => `${iso(atMs)} hut/left/${text.split(' ')[0]} ${text}`)),
  {
    id: 'seconds-of-the-day',
    write: (all) => ({
      name: `run-${day(startOf(all))}.log`,
      lines: all.map(({ atMs, text }) => {
        const [hours = 0, minutes = 0, seconds = 0] = ofDay(atMs).split(':').map(Number);
        return `${hours * 3600 + minutes * 60 + seconds} ${text}`;
      }),
    }),
  },
  style('date-of-a-shell', (all) =>
    all.map(
      ({ atMs, text }) =>
        `${DateTime.fromMillis(atMs, { zone: 'Europe/Madrid', locale: 'ja' }).toFormat("yyyy年 LL月 dd日 cccc HH:mm:ss 'CEST'")} ${text}`,
    ),
  ),
  style('months-between-slashes', (all) =>
    all.map(
      ({ atMs, text }) =>
        `[${DateTime.fromMillis(atMs, { zone: 'Europe/Madrid', locale: 'en' }).toFormat('dd/LLL/yyyy:HH:mm:ss ZZZ')}] ${text}`,
    ),
  ),
  style('settings-above', (all) => [
    ...JSON.stringify(
      { devices: Array.from({ length: 30 }, (_, id) => ({ id, name: `d${id}`, since: '2021-03-04' })) },
      null,
      2,
    ).split('\n'),
    ...all.map(plain),
  ]),
];
