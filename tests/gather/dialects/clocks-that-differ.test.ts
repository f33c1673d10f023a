import { describe, expect, it } from 'vitest';
import { cutAt } from '../../../src/gather/dialects/fixed-columns.js';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

/** A shutter that opens every five minutes, and a clock that gains ten seconds in a night. */
const NIGHT = Array.from({ length: 60 }, (_, i) => ({
  at: Date.UTC(2026, 8, 16, 20, 41, 3) + Math.floor(i / 2) * 307_000 + (i % 2) * 300_000,
  fast: 40_000 + Math.floor(i / 6) * 1000,
  says: i % 2 === 0 ? 'the shutter opens for 300 s' : 'the shutter closes',
}));
const clock = (ms: number): string => new Date(ms).toISOString().slice(11, 19);

type Row = (wrong: string, right: string, says: string) => string;
function rows(head: readonly string[], row: Row): string[] {
  return [...head, ...NIGHT.map(({ at, fast, says }) => row(clock(at + fast), clock(at), says))];
}

describe('of two clocks in each row, the one', () => {
  it.each<[string, string[]]>([
    ['set from outside', rows(['Night of 16 September 2026, UTC', 'pc;gps;what'], (a, b, c) => `${a};${b};${c}`)],
    [
      'not said to be fast',
      rows(
        ['Night of 16 September 2026, UTC. The laptop is 40 s fast.', 'laptop;box;what'],
        (a, b, c) => `${a};${b};${c}`,
      ),
    ],
    [
      'that holds, in another language, before the other',
      rows(['Nat 2026-09-16, UTC. Boks gælder', 'boks;maskine;hvad'], (a, b, c) => `${b};${a};${c}`),
    ],
  ])('%s is read', async (_, log) => {
    const { events } = await read(drafted(log).yaml, log.join('\n'), { zone: 'Europe/Madrid' });
    expect(events.map(({ atMs }) => atMs)).toEqual(NIGHT.map(({ at }) => at));
  });

  it('in front is the time of a line of text, and the other no end of anything', async () => {
    const log = rows(['Night of 16 September 2026, UTC'], (a, b, c) => `${b} [${a}] ${c}`);
    const { events } = await read(drafted(log).yaml, log.join('\n'), { zone: 'Europe/Madrid' });
    expect(events.map(({ atMs }) => atMs)).toEqual(NIGHT.map(({ at }) => at));
  });
});

describe('a word that is longer than its column', () => {
  it('goes on to its end', () => {
    expect(cutAt('21:04:03  heron   opens', [0, 10, 17])).toEqual(['21:04:03', 'heron', 'opens']);
    expect(cutAt('21:04:03  montering opens', [0, 10, 17])).toEqual(['21:04:03', 'montering', 'opens']);
    expect(cutAt('210403ABCD12', [0, 6, 10])).toEqual(['210403', 'ABCD', '12']);
  });
});
