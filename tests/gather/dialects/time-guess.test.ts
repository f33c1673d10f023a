import { describe, expect, it } from 'vitest';
import { guessStamp } from '../../../src/gather/dialects/draft/time/stamp-guess.js';
import { chosenBases } from '../../../src/gather/dialects/draft/time/base-choice.js';
import { baseLinesIn } from '../../../src/gather/dialects/draft/time/base-lines.js';
import { newStamp, StampPattern } from '../../../src/gather/dialects/time/stamp.js';
import { brief, read } from './support/read.js';

/** Twenty instants, each with some chatter behind it, a minute and a bit apart. */
const INSTANTS = Array.from({ length: 20 }, (_, i) => Date.UTC(2026, 10, 8, 22, 50, 7) + i * 61_000);

function two(value: number): string {
  return String(value).padStart(2, '0');
}

function parts(ms: number): { y: string; mo: string; d: string; h: string; mi: string; s: string } {
  const date = new Date(ms);
  return {
    y: String(date.getUTCFullYear()),
    mo: two(date.getUTCMonth() + 1),
    d: two(date.getUTCDate()),
    h: two(date.getUTCHours()),
    mi: two(date.getUTCMinutes()),
    s: two(date.getUTCSeconds()),
  };
}

type Writer = (ms: number, i: number) => string;

const STAMPS: readonly (readonly [string, Writer])[] = [
  ['digits alone', (ms) => Object.values(parts(ms)).join('')],
  ['digits with two of the year', (ms) => Object.values(parts(ms)).join('').slice(2)],
  ['a Julian date', (ms) => (ms / 86_400_000 + 2_440_587.5).toFixed(6)],
  ['a Julian date with a comma', (ms) => (ms / 86_400_000 + 2_440_587.5).toFixed(6).replace('.', ',')],
  ['a modified Julian date', (ms) => (ms / 86_400_000 + 40_587).toFixed(6)],
  ['an index and a word before the epoch', (ms, i) => `(${i + 1}) tijd ${ms / 1000}`],
  [
    'characters between the parts',
    (ms) => {
      const { y, mo, d, h, mi, s } = parts(ms);
      return `${y}年${Number(mo)}月${Number(d)}日${Number(h)}時${Number(mi)}分${Number(s)}秒`;
    },
  ],
  ['hours and minutes run together', (ms) => `${parts(ms).h}${parts(ms).mi}:${parts(ms).s}`],
  ['the same under a mark for universal time', (ms) => `${parts(ms).h}${parts(ms).mi}.${parts(ms).s}Z`],
  [
    'a month by name in the middle',
    (ms) => {
      const { y, d, h, mi, s } = parts(ms);
      return `${y}-nov-${d} ${h}.${mi}.${s}`;
    },
  ],
];

describe('the guess at a time pattern', () => {
  it.each(STAMPS)('reads %s', (_, write) => {
    const lines = INSTANTS.map((ms, i) => `${write(ms, i)} porta ${i % 7} x`);
    const guess = guessStamp(lines, { hasBase: false, stated: [] });
    expect(guess).not.toBeNull();
    const pattern = new StampPattern(guess?.pattern ?? '{epoch}');
    const stamp = newStamp();
    INSTANTS.forEach((ms, i) => {
      const bytes = Buffer.from(lines[i] ?? '');
      const found = pattern.readIn(guess?.at ?? 'start', bytes, 0, bytes.length, stamp);
      expect(found).toBe(true);
      // Without a date, times of day.
      const trueMs = pattern.kind === 'time' ? ms % 86_400_000 : ms;
      expect(Math.abs(stamp.ms - trueMs)).toBeLessThan(100);
    });
  });

  it('takes no count for a time where nothing says what it counts from', () => {
    const lines = INSTANTS.map((_, i) => `${i * 61}.5 shutter`);
    expect(guessStamp(lines, { hasBase: false, stated: [] })).toBeNull();
    expect(guessStamp(lines, { hasBase: true, stated: [] })?.pattern).toBe('{elapsed}');
  });

  it.each([
    ['digits alone begin with the year', '-', '', [], '{year2}{month}{day}-{hour}{minute}{second}'],
    ['points put the day first', ' ', '.', [], '{day}.{month}.{year2} {hour}:{minute}:{second}'],
    [
      'a day that the head states decides',
      '-',
      '',
      [Date.UTC(2030, 10, 26)],
      '{day}{month}{year2}-{hour}{minute}{second}',
    ],
  ] as const)('of a date that may be read in several orders: %s', (_, between, mark, stated, pattern) => {
    // 26 November 2030 or 30 November 2026.
    const lines = Array.from({ length: 20 }, (_unused, i) => {
      const clock = [21, i + 10, 7].map(two);
      return `${['26', '11', mark === '' ? '30' : '27'].join(mark)}${between}${clock.join(mark === '' ? '' : ':')} gate ${i % 3}`;
    });
    expect(guessStamp(lines, { hasBase: false, stated })?.pattern).toBe(pattern);
  });

  it('takes no counts of four digits for hours and minutes', () => {
    const lines = Array.from({ length: 20 }, (_unused, i) => `${2010 + i}.15 stars, frame ${i}`);
    expect(guessStamp(lines, { hasBase: false, stated: [] })?.pattern ?? '').not.toContain('{hour}{minute}');
  });

  it('takes no column of errors for a time', () => {
    const errors = [0.4, 1.2, -0.3, 0.9, -1.1, 0.2, 0.7, -0.6, 1.4, -0.2, 0.1, -0.9];
    expect(guessStamp(errors.map(String), { hasBase: true, stated: [] })).toBeNull();
  });
});

describe('the base of elapsed times', () => {
  it.each([
    ['基準=2026年11月8日17時39分56秒 時系=世界時', '2026-11-08T17:39:56.000Z'],
    ['base  2026-Oct-03 19:17:20 ut', '2026-10-03T19:17:20.000Z'],
    ['nulpunt: 3 oktober 2026, 19:17:20 (wereldtijd)', '2026-10-03T19:17:20.000Z'],
    ['## horloge à zéro le 03/10/2026 à 19:17:20', '2026-10-03T19:17:20.000Z'],
    ['zero = 1791055040', '2026-10-03T19:17:20.000Z'],
  ])('stands in %s', async (line, at) => {
    const section = chosenBases(baseLinesIn([{ text: line, number: 1 }]))[0]?.section;
    expect(section).toBeDefined();
    const log = await read(
      `dialect: 1\ntime: { pattern: '{elapsed}', zone: utc }\nsections: [${JSON.stringify(section)}]\nlines: [{ when: open, event: exposure-begin }]\n`,
      `${line}\n0.0 open\n61.5 open\n`,
    );
    const first = Date.parse(at);
    expect(brief(log)).toEqual([
      `${new Date(first).toISOString()} exposure-begin`,
      `${new Date(first + 61_500).toISOString()} exposure-begin`,
    ]);
  });
});

describe('days as numbers', () => {
  it.each([
    // J2000.0 is JD 2451545.0 (IAU); MJD 51544.5 is the same instant by definition of the MJD.
    ['{julian}', '2451545.0', '2000-01-01T12:00:00.000Z'],
    ['{mjd}', '51544,5', '2000-01-01T12:00:00.000Z'],
    ['{julian}', '2461377,27309383', '2026-12-02T18:33:15.307Z'],
  ])('%s reads %s', (pattern, text, at) => {
    const stamp = newStamp();
    const bytes = Buffer.from(text);
    expect(new StampPattern(pattern).readAt(bytes, 0, bytes.length, stamp)).toBe(true);
    expect(new Date(stamp.ms).toISOString()).toBe(at);
  });
});

describe('an exposure of a stated length that is cut short', () => {
  it('has no end as planned', async () => {
    const log = await read(
      `dialect: 1
time: { pattern: '{hour}:{minute}:{second}', zone: utc, date: session }
lines:
  - { when: 'opens for (?<s>\\d+) s', event: exposure-begin, lasts: s }
  - { when: 'given up', event: exposure-abort }
`,
      '21:00:00 opens for 300 s\n21:05:10 opens for 300 s\n21:07:00 given up\n21:08:00 opens for 300 s\n',
      { sessionDate: '2026-10-14' },
    );
    expect(log.events.filter(({ event }) => event === 'exposure-end').map(({ atMs }) => atMs)).toEqual([
      Date.UTC(2026, 9, 14, 21, 5),
      Date.UTC(2026, 9, 14, 21, 13),
    ]);
  });
});
