import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 20);
const stamp = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString();

/** Twelve frames, each begun with its length, and what is written so long after its end. */
function night(after: string, late: (i: number) => number): string[] {
  return Array.from({ length: 12 }, (_, i) => [
    `${stamp(i * 210)} exposing 180 s, filter L`,
    `${stamp(i * 210 + 180 + late(i))} ${after.replace('#', String(i))}`,
  ]).flat();
}

describe('an exposure of which the beginning, the length and the saved file are reported', () => {
  it('ends when its seconds are over', async () => {
    const lines = night('saved m31-#.fits', (i) => 1 + (i % 2));
    const log = await read(drafted(lines).yaml, `${lines.join('\n')}\n`, { zone: 'UTC' });
    const ends = log.events.filter(({ event }) => event === 'exposure-end');
    expect(ends.map(({ atMs }) => (atMs - T0) / 1000)).toEqual(Array.from({ length: 12 }, (_, i) => i * 210 + 180));
    expect(log.events.filter(({ event }) => event === 'frame-saved')).toHaveLength(12);
  });

  it('has no planned end where a line tells the end with the file', () => {
    const lines = Array.from({ length: 24 }, (_, i) => [
      `${stamp(i * 320)} west: exposure ${i} started, M 31, L, 300 s`,
      `${stamp(i * 320 + 2)} east: exposure ${i} started, M 31, Ha, 300 s`,
      `${stamp(i * 320 + 300)} west: exposure ${i} done and saved as west_${i}.fits`,
      `${stamp(i * 320 + 302)} east: exposure ${i} done and saved as east_${i}.fits`,
      `${stamp(i * 320 + 305)} dither of 3 px`,
    ]).flat();
    const { report } = drafted(lines);
    expect(report.rules.flatMap(({ events }) => events.map(({ event }) => event))).toContain('exposure-end');
    expect(report.rules.filter(({ lasts }) => lasts !== undefined)).toEqual([]);
  });
});
