import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

/** Four hours up to midnight and beyond, a shutter that opens every five minutes. */
const NIGHT = Array.from({ length: 90 }, (_, i) => ({
  at: new Date(Date.UTC(2026, 8, 16, 20, 41, 3) + Math.floor(i / 2) * 307_000 + (i % 2) * 300_000),
  says: i % 2 === 0 ? 'the shutter opens' : 'the shutter closes',
}));
const TOP = 'Written in the night of 16 September 2026, times in UTC';

/** Marks every so many minutes, below which each line says how long after the mark it is. */
function marked(every: number, mark: (iso: string) => string, part: (seconds: number) => string): string[] {
  const log = [TOP];
  let lastMs = 0;
  for (const { at, says } of NIGHT) {
    const atMs = at.getTime() - (at.getTime() % (every * 60_000));
    if (atMs !== lastMs) log.push(mark(new Date(atMs).toISOString()));
    lastMs = atMs;
    log.push(`${part((at.getTime() - atMs) / 1000)} ${says}`);
  }
  return log;
}

const two = (number: number): string => String(Math.floor(number)).padStart(2, '0');
const clock = (seconds: number): string => `+${two(seconds / 60)}:${two(seconds % 60)}`;
const ofDay = (iso: string): string => iso.slice(11, 16);
const compact = (iso: string): string => iso.slice(2, 16).replace(/[-:]/g, '').replace('T', ' ');

describe('lines that count from a mark of time above them', () => {
  it.each([
    ['a date in six digits and a time in four', marked(30, (iso) => `== mark ${compact(iso)}`, clock)],
    ['four digits', marked(30, (iso) => `mark ${ofDay(iso).replace(':', '')}`, clock)],
    ['a time alone', marked(10, (iso) => `[${ofDay(iso)}]`, clock)],
    [
      'seconds set at their right',
      marked(
        15,
        (iso) => `* ${ofDay(iso).replace(':', 'h')}`,
        (s) => String(s).padStart(4),
      ),
    ],
    [
      'seconds with their unit',
      marked(
        30,
        (iso) => `-- ${ofDay(iso)} --`,
        (s) => `+${s} s `,
      ),
    ],
  ])('are read: %s', async (_, log) => {
    const { events } = await read(drafted(log).yaml, log.join('\n'), { zone: 'Europe/Madrid' });
    expect(events.map(({ atMs }) => atMs)).toEqual(NIGHT.map(({ at }) => at.getTime()));
  });

  it('are not, if they go on past the next mark', () => {
    const log = marked(
      15,
      (iso) => `-- ${ofDay(iso)} --`,
      (s) => `+${s * 3} s `,
    );
    expect(drafted(log).yaml).not.toContain("pattern: '+{elapsed} s'");
  });
});
