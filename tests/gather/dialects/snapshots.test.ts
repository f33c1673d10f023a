import { describe, expect, it } from 'vitest';
import { showsStates } from '../../../src/gather/dialects/draft/kinds/snapshots.js';
import { drafted } from './support/drafted.js';

const at = (seconds: number): string => new Date(Date.UTC(2026, 9, 14, 20, 0, seconds)).toISOString();

/** A row whenever a device changes, with the states of all of them. */
const ROWS = Array.from({ length: 12 }, (_, i) =>
  [
    [0, 'guides', 'exposes'],
    [200, 'guides', 'reads'],
    [203, 'dithers', 'waits'],
    [206, 'settles', 'waits'],
    [218, 'guides', 'waits'],
  ].map(([after, guider, camera]) => [
    at(i * 220 + Number(after)),
    'runs',
    i < 6 ? 'tracks' : 'follows',
    String(guider),
    String(camera),
    ['rests', 'turns', 'sharp'][Math.floor(i / 4)] ?? '',
    ['Ha in', 'OIII in', 'SII in'][Math.floor(i / 4)] ?? '',
    ['calm', 'gusts', 'haze'][Math.floor(i / 4)] ?? '',
    ['high', 'low', 'setting'][Math.floor(i / 4)] ?? '',
  ]),
).flat();
const HEAD = ['time', 'night', 'mount', 'guider', 'camera', 'focuser', 'wheel', 'air', 'moon'];

describe('a table that shows the states of all devices, whatever has changed', () => {
  it('is known by columns that hardly ever change', () => {
    const lines = ROWS.map((row, i) => ({
      fields: new Map(row.map((cell, k) => [HEAD[k] ?? '', cell])),
      line: i + 2,
      atMs: Date.parse(row[0] ?? ''),
    }));
    expect(showsStates(lines, ['time'])).toBe(true);
    const events = lines.map(({ fields, ...rest }, i) => ({
      ...rest,
      fields: new Map([...fields].map(([path, cell], k) => [path, k > 4 && (i + k) % 3 > 0 ? '' : `${cell} ${i % 3}`])),
    }));
    expect(showsStates(events, ['time'])).toBe(false);
  });

  it('makes no event of any row, and leaves all of them to choose', () => {
    const { report } = drafted([HEAD.join(';'), ...ROWS.map((row) => row.join(';'))]);
    expect(report.rules).toEqual([]);
    expect(report.unused.length).toBeGreaterThan(3);
  });
});
