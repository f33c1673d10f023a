import { describe, expect, it } from 'vitest';
import { clockError } from '../../../src/gather/dialects/draft/time/composed/clock-error.js';
import { areAll, beginsIn, proseOf, recordsOf, tableOf, T0, type StampAt } from './support/clocked-logs.js';

const DAY_MS = 86_400_000;
/** When the counters of these logs stood at zero: twelve minutes before the first line. */
const ZERO = T0 - 754_000;
const two = (value: number): string => String(value).padStart(2, '0');
const iso = (ms: number): string => new Date(ms).toISOString().slice(0, 19).replace('T', ' ');
const local = (ms: number): string => iso(ms + 2 * 3_600_000);
const clock = (seconds: number): string =>
  `${Math.floor(seconds / 3600)}:${two(Math.floor(seconds / 60) % 60)}:${two(Math.floor(seconds) % 60)}`;
const since =
  (fromMs: number, unit: number, digits = 0): StampAt =>
  (ms) =>
    ((ms - fromMs) / 1000 / unit).toFixed(digits);
/** 1904 began 24,107 days before 1970 (66 years, of which 17 are leap years). */
const Y1904 = -24_107 * DAY_MS;

const LOGS: readonly (readonly [string, readonly string[]])[] = [
  ['seconds whose zero stands at the foot', [...proseOf(since(ZERO, 1, 1)), `started at ${iso(ZERO)} UTC`]],
  [
    'cycles whose unit and last count stand at the foot',
    [
      ...proseOf((ms) => `t${since(ZERO, 0.02)(ms).padStart(8, '0')}`),
      '50 ticks a second',
      `last tick: t${since(ZERO, 0.02)(T0 + 9_400_000).padStart(8, '0')} = ${iso(T0 + 9_400_000)} UT`,
    ],
  ],
  [
    'milliseconds that one line ties to an instant',
    [
      ...proseOf(since(ZERO, 0.001)).slice(0, 40),
      `${since(ZERO, 0.001)(T0 + 3_133_000)}  clock sync: it is now ${iso(T0 + 3_133_000)} UTC`,
      ...proseOf(since(ZERO, 0.001)).slice(40),
    ],
  ],
  [
    'seconds of a small counter that begins anew',
    [`count 64000 was ${iso(ZERO)} UT`, ...proseOf((ms) => String(Math.floor((ms - ZERO) / 1000 + 64_000) % 65_536))],
  ],
  [
    'hours and minutes up to an instant ahead',
    [...proseOf((ms) => `T-${clock((T0 + 10 * 3_600_000 - ms) / 1000)}`), `plan: T is ${iso(T0 + 10 * 3_600_000)} UTC`],
  ],
  [
    'durations of ISO 8601',
    [
      `{"origin": "${iso(ZERO)}Z"}`,
      ...recordsOf((ms) => `"after": "PT${Math.floor((ms - ZERO) / 60_000)}M${Math.floor((ms - ZERO) / 1000) % 60}S"`),
    ],
  ],
  [
    'tenths of seconds after a noon whose zone is stated',
    [
      `CONTROL REV 2   NIGHT OF ${iso(T0).slice(0, 10)}`,
      'T IN TENTHS OF A SECOND AFTER LOCAL NOON OF THAT DAY  (LOCAL = UT + 2 H)',
      ...proseOf(since(Math.floor(T0 / DAY_MS) * DAY_MS + DAY_MS / 2 - 2 * 3_600_000, 0.1)),
    ],
  ],
  ['days since 1904', ['# t: days since 1904-01-01 0h UT', ...tableOf('t', since(Y1904, 86_400, 6))]],
  [
    // 0001-01-01 is 719,162 days before 1970 (ISO 8601, proleptic Gregorian calendar).
    'hundreds of nanoseconds since the year 1',
    tableOf('ticks_100ns_since_0001_utc', (ms) => String((BigInt(Math.floor(ms)) + 719_162n * 86_400_000n) * 10_000n)),
  ],
  [
    'weeks and seconds of the week',
    [
      '{"clock": "weeks since 1980-01-06 and seconds of the week", "ahead_of_utc_s": 18}',
      ...recordsOf((ms) => {
        const seconds = (ms - Date.UTC(1980, 0, 6)) / 1000 + 18;
        return `"week": ${Math.floor(seconds / 604_800)}, "sow": ${(seconds % 604_800).toFixed(1)}`;
      }),
    ],
  ],
  [
    'seconds before and after a midnight',
    tableOf('s_from_ut_midnight;midnight_of', (ms) => `${since(T0 - (T0 % DAY_MS) + DAY_MS, 1, 1)(ms)};2026-10-15`),
  ],
  [
    'a column for each part, in any order',
    tableOf('sec;min;hour;wday;day;month;year', (ms) =>
      [local(ms).slice(17), local(ms).slice(14, 16), local(ms).slice(11, 13), 3, local(ms).slice(8, 10), 10, 26]
        .map(Number)
        .join(';'),
    ),
  ],
  [
    'hours that go on past midnight beside a date',
    tableOf('night;clock', (ms) => `14/10/2026;${clock((ms + 2 * 3_600_000) / 1000 - Date.UTC(2026, 9, 14) / 1000)}`),
  ],
  [
    'the day of the year in a column of its own',
    tableOf('day;UT', (ms) => `2026/${ms < T0 + DAY_MS / 6 ? 287 : 288};${iso(ms).slice(11)}`),
  ],
  [
    'a date behind a time with hyphens',
    tableOf('time;day', (ms) => `${local(ms).slice(11).replaceAll(':', '-')};${Number(local(ms).slice(8, 10))}.X.2026`),
  ],
  ['hexadecimal seconds since 1970', proseOf((ms) => Math.floor(ms / 1000).toString(16))],
  [
    'hexadecimal seconds since the start',
    [
      `started at ${iso(ZERO)} UTC`,
      ...proseOf((ms) =>
        Math.floor((ms - ZERO) / 1000)
          .toString(16)
          .padStart(8, '0'),
      ),
    ],
  ],
  [
    'a date and decimal hours',
    proseOf((ms) => `${local(ms).slice(0, 10)} ${(((ms + 7_200_000) % DAY_MS) / 3_600_000).toFixed(5)}`),
  ],
  [
    'hours and decimal minutes',
    proseOf((ms) => `${local(ms).slice(0, 16)}${((Math.floor(ms / 1000) % 60) / 60).toFixed(3).slice(1)}`),
  ],
  [
    'minutes and seconds below an hour stated once',
    [`log begins at ${iso(T0)} UT`, ...proseOf((ms) => iso(ms).slice(14))],
  ],
  [
    'the time that is left',
    [
      `# time remaining until ${iso(T0 + 36_000_000)} UT`,
      ...tableOf('left', (ms) => clock((T0 + 36_000_000 - ms) / 1000)),
    ],
  ],
  ['Julian dates short of 2,400,000 days', ['# JD - 2400000', ...proseOf((ms) => (ms / DAY_MS + 40_587.5).toFixed(6))]],
  [
    'the clock that a remark trusts',
    [
      '# battery flat - box_time is not set, go by gps_utc',
      ...tableOf('box_time;gps_utc', (ms) => `${iso(ms - 1_000_017_000)};${iso(ms)}`),
    ],
  ],
  [
    // 14 October 2026 is the Wednesday of the 42nd week (ISO 8601).
    'days of a week beside a time with points',
    tableOf(
      'vecka;tid',
      (ms) => `2026-v42-${local(ms).slice(8, 10) === '14' ? 3 : 4};${local(ms).slice(11).replaceAll(':', '.')}`,
    ),
  ],
  ['a clock that was ahead', ['this clock was 150 s ahead of UT all night', ...proseOf((ms) => iso(ms + 150_000))]],
];

describe('drafts of logs whose clocks are composed', () => {
  it.each(LOGS)('read %s', async (_, lines) => {
    const { yaml, found } = await beginsIn(lines);
    expect(found.length, yaml).toBeGreaterThan(0);
    expect(areAll(found), `${yaml}\n${found.join(' ')}`).toBe(true);
  });

  it('tell a dial of twelve hours by what follows twelve', async () => {
    // An hour and a half later, so that the night goes on past one.
    const lines = proseOf((ms) => {
      const shown = local(ms + 5_400_000);
      return `${Number(shown.slice(11, 13)) % 12 || 12}${shown.slice(13)}`;
    });
    const { yaml, found } = await beginsIn(['evening of 2026-10-14', ...lines]);
    expect(yaml).toContain("pattern: '{hour12}:{minute}:{second}'");
    expect(areAll(found.map((s) => s - 5400))).toBe(true);
  });

  it('leave out a counter of which nothing says where it begins', async () => {
    const { found } = await beginsIn(proseOf(since(ZERO, 1)));
    expect(found).toEqual([]);
  });
});

describe('the error of a clock', () => {
  it.each([
    ['train wren; this clock was 150 s ahead of UT all night', { seconds: 150, isOfUtc: true }],
    ['the clock of this computer was 3 min 12 s slow', { seconds: -192, isOfUtc: false }],
    ['Uhr der Box geht 4,5 s vor', { seconds: 4.5, isOfUtc: false }],
    ['{"ahead_of_utc_s": 18}', { seconds: 18, isOfUtc: true }],
  ])('is stated by %j', (text, error) => {
    expect(clockError([text])).toEqual(error);
  });

  it.each([
    'clock was 12 s ahead and has been corrected',
    'clock synced, was 0.3 s behind',
    'the clock is two hours ahead of UTC',
    'clock 7200 s ahead of UTC',
    'guiding settles 12 s behind the shutter',
  ])('is none in %j', (text) => {
    expect(clockError([text])).toBeNull();
  });
});
