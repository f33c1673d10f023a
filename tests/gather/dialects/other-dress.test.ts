import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { inFull, some } from '../../support/runs.js';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const OPEN = fileURLToPath(new URL('./strangers/open/', import.meta.url));

/** Logs that are drafted whole as they stand: times of day under a date, a count, topics of a bus, days in the line. */
const LOGS = ['kettlehole.log', 'gameloop.log', 'doorlatch.log', 'petrolejka.log'] as const;

const STAMP = /^(\[?(?:\d[\d:.,/TZ+-]*\d?Z?)(?: \d[\d:.,]*\d)?\]?)(\s+)(?=\S)/;
const afterStamp = (lines: readonly string[], text: string): string[] =>
  lines.map((line) => line.replace(STAMP, (_, stamp: string, blank: string) => `${stamp}${blank}${text}`));

/** What other programs put around the very same lines; none of it says anything of the night. */
const DRESSES: readonly (readonly [string, (lines: readonly string[]) => string[]])[] = [
  [
    'a head with dates of other things',
    (lines) => [
      '='.repeat(40),
      'capture script 2.14 (build 20240311), copyright 2019-2025',
      'Python 3.11.4 (main, Jun  7 2023, 10:13:09)',
      '='.repeat(40),
      ...lines,
    ],
  ],
  ['numbered lines', (lines) => lines.map((line, i) => `${String(i + 1).padStart(6, '0')} ${line}`)],
  ['the machine and the program', (lines) => afterStamp(lines, 'alder capture[811]: ')],
  ['a mark between time and message', (lines) => afterStamp(lines, '- ')],
  ['blanks at both ends, and between lines', (lines) => lines.flatMap((line) => [`  ${line}   `, ''])],
];

/** As many lines as hold more than a hundred events. */
const LINES = inFull(Infinity, 300);

/** Each log in all dresses; in `npm test` two logs in two each, not the same. */
const CASES = inFull(
  LOGS.map((name) => [name, DRESSES] as const),
  some(LOGS, 2).map((name, i) => [name, DRESSES.filter((_, d) => d > 0 && (d - 1) % 2 === i)] as const),
);

describe.each(CASES)('%s in other dress', (name, dresses) => {
  const lines = readFileSync(`${OPEN}${name}`, 'utf8').split(/\r?\n/).slice(0, LINES);
  const events = async (dressed: readonly string[]): Promise<string[]> => {
    const log = await read(drafted(dressed, name).yaml, dressed.join('\n'), { zone: 'Europe/Madrid', name });
    return log.events.map(({ atMs, event }) => `${new Date(atMs).toISOString()} ${event}`);
  };

  it('tells the same events', async () => {
    const plain = await events(lines);
    expect(plain.length).toBeGreaterThan(100);
    for (const [dress, put] of dresses) {
      const reported = new Set(await events(put(lines)));
      expect(plain.filter((one) => reported.has(one)).length / plain.length, dress).toBeGreaterThan(0.95);
    }
  });
});
