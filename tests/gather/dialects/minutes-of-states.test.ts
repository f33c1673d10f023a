import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

/** A row a minute with the state of each device as a letter, which lists above explain for each column. */
function sheet(lists: readonly string[], header: string): string[] {
  const rows = Array.from({ length: 168 }, (_, minute) => {
    const m = minute % 24;
    const n = Math.floor(minute / 24) * 4;
    // Four exposures of four minutes one after the other, reading out, a dither, settling, a refocus and a rest.
    const camera = m < 16 ? `E;${n + Math.floor(m / 4) + 1}` : m === 16 ? 'U;' : m < 20 ? 'I;' : m < 22 ? 'H;' : 'I;';
    const mount = m === 18 ? 'D' : m === 19 ? 'T' : minute === 0 ? 'X' : 'V';
    const guider = m === 20 || m === 21 ? 'P' : minute < 3 ? 'N' : 'G';
    const second = minute % 7 < 5 ? `E;${Math.floor(minute / 7) + 301}` : minute % 7 === 5 ? 'U;' : 'I;';
    return `${1801941000 + minute * 60};${camera};${second};${mount};${guider}`;
  });
  return [...lists, header, ...rows];
}

it.each([
  [
    [
      'camera: E = exposes, U = reads out, H = focuses, A = exposure aborted, I = nothing to do',
      'mount: X = parked, S = slews, V = tracks, D = dither, T = settles',
      'guider: N = off, G = corrects, P = paused, Z = guide star lost     waits: 1 = yes',
    ],
    'unix (s);heron;h.no;wren;w.no;mount;guider',
  ],
  [
    [
      'Kamera: E = belichtet, U = liest aus, H = stellt scharf, A = Belichtung abgebrochen, I = nichts zu tun',
      'Montierung: X = geparkt, S = schwenkt, V = führt nach, D = Dither, T = beruhigt sich',
      'Nachführung: N = aus, G = korrigiert, P = pausiert, Z = Leitstern verloren',
    ],
    'Unix (s);heron;h.Nr;wren;w.Nr;Montierung;Nachführung',
  ],
])('the number of an exposure tells where the next begins: %s', async (lists, header) => {
  const lines = sheet(lists, header);
  const { yaml } = drafted(lines, 'minutes.csv');
  const { events } = await read(yaml, `${lines.join('\n')}\n`);
  const count = (event: string, train?: string): number =>
    events.filter((one) => one.event === event && one.train === train).length;
  expect(count('exposure-end', 'heron'), yaml).toBe(28);
  expect(count('exposure-begin', 'heron'), yaml).toBe(27);
  expect(count('dither-begin')).toBe(7);
});
