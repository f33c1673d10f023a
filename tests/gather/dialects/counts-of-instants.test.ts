import { describe, expect, it } from 'vitest';
import { some } from '../../support/runs.js';
import { drafted } from './support/drafted.js';
import { brief, codes, read } from './support/read.js';

/** 14 October 2026, 19:42:10 UTC, when the count stood at 184.320 s. */
const T0 = Date.UTC(2026, 9, 14, 19, 42, 10);
const COUNT_S = 184.32;

/** A night of exposures and dithers, seconds after that instant. */
const NIGHT = Array.from({ length: 30 }, (_, i) => [
  { at: 10 + i * 310, text: 'exposure starts, 300 s, Ha' },
  { at: 310 + i * 310, text: 'exposure ends' },
  { at: 311 + i * 310, text: 'dither by 3.1 px' },
  { at: 313 + i * 310, text: 'dither done' },
]).flat();
const logOf = (head: readonly string[], count: (seconds: number) => string): string[] => [
  ...head,
  ...NIGHT.map(({ at, text }) => `${count(COUNT_S + at)} ${text}`),
];
const ms = (seconds: number): string => String(Math.round(seconds * 1000)).padStart(10, '0');
const s = (seconds: number): string => seconds.toFixed(3);

/** How a head, or a line among the others, may tie an instant to a count; another date may stand beside. */
const TIES: readonly (readonly [string, readonly string[]])[] = [
  ['a tick after the instant', logOf(['built Oct 2 2026 23:51:07', 'RTC 2026-10-14T19:42:10Z at tick 184320'], ms)],
  ['a tick before the instant', logOf(['tick 184320 = 2026-10-14T19:42:10Z, 1 tick is 1 ms'], ms)],
  ['seconds after the instant', logOf(['2026-10-14 19:42:10 UTC <-> uptime 184.320 s'], s)],
  ['the line’s own count', logOf([`${s(COUNT_S)} clock is 2026-10-14T19:42:10Z`], s)],
  [
    'the own count of a later line',
    logOf([`${s(3.1)} hello`, `${s(COUNT_S)} clock set to 14 Oct 2026 19:42:10 UTC`], s),
  ],
];

describe('counts that an instant is tied to', () => {
  it.each(some(TIES, 3))('are read where the log states %s', async (_name, lines) => {
    const { yaml } = drafted(lines);
    const log = await read(yaml, `${lines.join('\n')}\n`, { zone: 'UTC' });
    const begins = log.events.filter(({ event }) => event === 'exposure-begin').map(({ atMs }) => atMs - T0);
    expect(begins, yaml).toEqual(
      NIGHT.filter(({ text }) => text.startsWith('exposure starts')).map(({ at }) => at * 1000),
    );
  });

  it('count from the instant itself where the line says that it is their zero', async () => {
    const lines = logOf([`${s(0.4)} started at 2026-10-14T19:39:05.680Z, times count from there`], s);
    const { yaml } = drafted(lines);
    expect(yaml).not.toContain('sync');
    const log = await read(yaml, `${lines.join('\n')}\n`);
    expect(log.events[0]?.atMs).toBe(T0 + 10_000);
  });

  it.each([
    'started (UTC):2026-10-14 19:39:05.680',
    'start[UTC]:14.10.2026 19:39:05.680',
    '开始时刻(UTC):2026-10-14 19:39:05.680',
  ])('have their day from a head line without a blank before it: %s', async (head) => {
    const lines = logOf([head], s);
    const log = await read(drafted(lines).yaml, `${lines.join('\n')}\n`);
    expect(log.events[0]?.atMs).toBe(T0 + 10_000);
  });

  it.each([
    'zero="2026-10-14T19:42:10Z" ticks-per-second="50"',
    'Nullpunkt 2026-10-14T19:42:10Z, Takte pro Sekunde: 50',
  ])('are of the unit whose number in a second the head states: %s', async (head) => {
    const lines = [head, ...NIGHT.map(({ at, text }) => `${at * 50} ${text}`)];
    const log = await read(drafted(lines).yaml, `${lines.join('\n')}\n`);
    expect(log.events[0]?.atMs).toBe(T0 + 10_000);
  });
});

describe('sections with a count', () => {
  const DIALECT = (section: string): string => `dialect: 1
time: { pattern: "{elapsed} ", zone: utc }
sections:
  - ${section}
lines: [{ when: "^open", event: exposure-begin }]
`;
  const BASE = 'base: "{hour}:{minute}:{second} {day}/{month}/{year}"';

  it('take it from the line, whatever the unit', async () => {
    const log = await read(
      DIALECT(`{ begin: "clock (?<time>.+) at (?<elapsed>[0-9.]+)", ${BASE} }`),
      'clock 19:42:10 14/10/2026 at 100.5\n110.5 open\n',
    );
    expect(brief(log)).toEqual(['2026-10-14T19:42:20.000Z exposure-begin']);
  });

  it('take the line’s own with sync, and the next such line’s after it', async () => {
    const log = await read(
      DIALECT(`{ begin: "clock (?<time>.+)", ${BASE}, sync: true }`),
      '100.0 clock 19:42:10 14/10/2026\n110.0 open\n120.0 clock 20:42:10 14/10/2026\n121.0 open\n',
    );
    expect(brief(log)).toEqual(['2026-10-14T19:42:20.000Z exposure-begin', '2026-10-14T20:42:11.000Z exposure-begin']);
  });

  it('say so where a line has no count of its own', async () => {
    const log = await read(
      DIALECT(`{ begin: "clock (?<time>.+)", ${BASE}, sync: true }`),
      'clock 19:42:10 14/10/2026\n110.0 open\n',
    );
    expect(log.events).toEqual([]);
    expect(codes(log)).toContain('unreadable-time');
  });

  it('are none of a program’s version beside the instant that times count from', async () => {
    const lines = ['trellist 0.6, log opened 2026-10-14T19:42:10Z, times in seconds since then', ...logOf([], s)];
    const log = await read(drafted(lines).yaml, `${lines.join('\n')}\n`, { zone: 'UTC' });
    const [first] = log.events.filter(({ event }) => event === 'exposure-begin');
    expect(first?.atMs).toBe(T0 + Math.round((COUNT_S + 10) * 1000));
  });
});
