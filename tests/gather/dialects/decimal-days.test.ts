import { describe, expect, it } from 'vitest';
import { areAll, beginsIn, proseOf, recordsOf, T0, tableOf } from './support/clocked-logs.js';

const DAY_MS = 86_400_000;
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const two = (value: number): string => String(value).padStart(2, '0');

/** Year, month and the day with its fraction to a hundred thousandth: 0.9 s. */
function partsOf(ms: number): { y: number; m: number; d: string; name: string; dayOfYear: string } {
  const day = new Date(Math.floor(ms / DAY_MS) * DAY_MS);
  const [y, m] = [day.getUTCFullYear(), day.getUTCMonth()];
  const fraction = ((ms % DAY_MS) / DAY_MS).toFixed(5).slice(1);
  const ofYear = (day.getTime() - Date.UTC(y, 0, 0)) / DAY_MS;
  return {
    y,
    m: m + 1,
    d: `${two(day.getUTCDate())}${fraction}`,
    name: MONTHS[m] ?? '',
    dayOfYear: `${ofYear}${fraction}`,
  };
}

const LOGS: readonly (readonly [string, readonly string[]])[] = [
  ['the name of the month between', proseOf((ms) => `${partsOf(ms).y} ${partsOf(ms).name} ${partsOf(ms).d}`)],
  ['blanks between', proseOf((ms) => `${partsOf(ms).y} ${two(partsOf(ms).m)} ${partsOf(ms).d}`)],
  ['the day first', proseOf((ms) => `${partsOf(ms).d} ${partsOf(ms).name} ${partsOf(ms).y}`)],
  [
    'a comma, and the month first',
    proseOf((ms) => `${partsOf(ms).name} ${partsOf(ms).d.replace('.', ',')} ${partsOf(ms).y}`),
  ],
  ['the day of the year', proseOf((ms) => `${partsOf(ms).y}-${partsOf(ms).dayOfYear}`)],
  ['an index before', proseOf((ms) => `007 | ${partsOf(ms).y} ${partsOf(ms).name} ${partsOf(ms).d} |`)],
  ['records', recordsOf((ms) => `"ut": "${partsOf(ms).y} ${partsOf(ms).name} ${partsOf(ms).d}"`)],
].map(([name, lines]) => [name as string, ['# all times UTC', ...(lines as string[])]] as const);

describe('a draft for a log whose days have decimals', () => {
  it.each(LOGS)('reads %s', async (_, lines) => {
    const { yaml, found } = await beginsIn(lines);
    expect(areAll(found), yaml).toBe(true);
  });
});

describe('a draft for a log with a second clock in each record', () => {
  const clock = (seconds: number): string =>
    [seconds / 3600, (seconds / 60) % 60, seconds % 60].map((part) => two(Math.floor(part))).join(':');
  const dated = (ms: number): string => new Date(ms).toISOString().slice(0, 19).replaceAll('-', '/').replace('T', '-');
  // A sidereal second is 1/1.002737909 s (IAU 2006).
  const sidereal = (ms: number): number => (5900 + ((ms - T0) / 1000) * 1.002_737_909) % 86_400;
  it.each([
    ['sidereal time', sidereal],
    ['time since the program began', (ms: number): number => 4000 + (ms - T0) / 1000],
  ])('takes no event from its %s', async (_, other) => {
    const lines = recordsOf((ms) => `"k": "${clock(other(ms))}", "ut": "${dated(ms)}"`);
    const { yaml, found } = await beginsIn(lines);
    expect(areAll(found), yaml).toBe(true);
    expect(yaml).not.toContain("'k'");
  });
});

describe('a draft for a table with the plan beside what was done', () => {
  it('takes no event from the plan', async () => {
    const stamp = (ms: number): string => new Date(ms).toISOString().slice(0, 19).replace('T', ' ');
    // The plan is made for steps that take no time: what is done drifts from it.
    const lines = tableOf('planned;done', (ms) => `${stamp(T0 + (ms - T0) * 0.9)};${stamp(ms)}`);
    const { yaml, found } = await beginsIn(['# times in UTC', ...lines]);
    expect(areAll(found), yaml).toBe(true);
  });
});
