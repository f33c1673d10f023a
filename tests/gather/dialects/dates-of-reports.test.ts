import { describe, expect, it } from 'vitest';
import { findYearless } from '../../../src/gather/dialects/draft/time/date-shapes.js';
import { jumpsUnder } from '../../../src/gather/dialects/draft/time/date-jumps.js';
import { withOffsets } from '../../../src/gather/dialects/draft/time/heading-offsets.js';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const HOUR_MS = 3_600_000;
/** The night on which clocks go back in Madrid (EU directive 2000/84/EC: 25 October 2026, 01:00 UTC). */
const T0 = Date.UTC(2026, 9, 24, 19);
const CHANGE_MS = Date.UTC(2026, 9, 25, 1);
const ahead = (ms: number): number => (ms < CHANGE_MS ? 2 : 1);
const local = (ms: number, hours = ahead(ms)): string => new Date(ms + hours * HOUR_MS).toISOString();

/** A report every hour, dated when it is sent, of what happened in the hour before. */
const reports = Array.from({ length: 9 }, (_, i) => T0 + i * HOUR_MS).flatMap((from) => [
  `Sent: ${local(from + HOUR_MS + 4000, ahead(from)).slice(0, 10)}`,
  `This happened on ${local(from).slice(0, 10)}, hour ${local(from).slice(11, 13)} (UTC+0${ahead(from)}).`,
  ...Array.from({ length: 10 }, (_, k) => from + 30_000 + k * 350_000).flatMap((ms) => [
    `  at ${local(ms).slice(11, 19)} exposure begins, 300 s with Ha`,
    `  at ${local(ms + 300_000).slice(11, 19)} exposure ends`,
  ]),
]);

describe('the date above times of day', () => {
  it('is the one under which the clock does not jump by a day, with the offset beside it if that changes', async () => {
    const { yaml } = drafted(reports);
    expect(yaml).toContain('(?<offset>');
    const { events } = await read(yaml, `${reports.join('\n')}\n`, { zone: 'Europe/Madrid' });
    const begun = events.flatMap(({ event, atMs }) => (event === 'exposure-begin' ? [atMs] : []));
    expect(begun).toEqual(
      Array.from({ length: 90 }, (_, i) => T0 + Math.floor(i / 10) * HOUR_MS + 30_000 + (i % 10) * 350_000),
    );
  });

  it('has the zone of the log where all of its headings state the same', () => {
    const source = {
      from: 'header',
      when: '^Report of (?<date>\\S+)',
      pattern: '{year}-{month}-{day}',
      line: 2,
      evening: false,
    } as const;
    const lines = [10, 11].map((hour, i) => ({ text: `Report of 2026-10-24 from ${hour}:00 (UTC+02)`, number: i + 1 }));
    expect(withOffsets(source, lines)).toBe(source);
  });

  it('is no heading further down: it dates nothing above it', () => {
    const heading = { text: '[guide 2026-06-07]', number: 9 };
    const source = { when: '^\\[guide\\s(?<date>\\d+-\\d+-\\d+)', pattern: '{year}-{month}-{day}' };
    expect(jumpsUnder(source, [{ line: 3, atMs: 0 }], [heading])).toBe(Infinity);
    expect(jumpsUnder(source, [{ line: 10, atMs: 0 }], [heading])).toBe(0);
  });

  it('has no month that is the tail of another word', () => {
    expect(findYearless('6=OIII 7=SII')).toBeNull();
    expect(findYearless('night of October 14')).not.toBeNull();
  });
});
