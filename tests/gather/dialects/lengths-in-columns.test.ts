import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 19, 30);
const clock = (seconds: number): string => new Date(T0 + seconds * 1000).toISOString().slice(11, 19);

/** Exposures state how long they were, all else when it was over. */
const STEPS = Array.from({ length: 30 }, (_, i) => [
  { what: 'ekspozycja', from: i * 330, to: i * 330 + 300, isLength: true, note: `m33_${i}.fits` },
  { what: 'dither', from: i * 330 + 304, to: i * 330 + 308, isLength: false, note: '' },
  { what: 'uspokajanie', from: i * 330 + 308, to: i * 330 + 320, isLength: false, note: '' },
]).flat();
const length = (seconds: number): string => `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
const HEAD = ['od', 'do', 'trwanie', 'co', 'uwagi'];
const ROWS = STEPS.map(({ what, from, to, isLength, note }) => [
  clock(from),
  isLength ? '' : clock(to),
  isLength ? length(to - from) : '',
  what,
  note,
]);

async function eventsRead(lines: readonly string[]): Promise<(name: string) => number[]> {
  const { events } = await read(drafted(lines).yaml, `${lines.join('\n')}\n`, {
    zone: 'UTC',
    sessionDate: '2026-10-14',
  });
  return (name) =>
    events.flatMap(({ event, atMs }) => (event === name ? [(atMs - T0) / 1000] : [])).sort((a, b) => a - b);
}
const of = (what: string, side: 'from' | 'to'): number[] =>
  STEPS.flatMap((step) => (step.what === what ? [step[side]] : []));

describe('a table in which some rows state an end, and others a length in minutes and seconds', () => {
  const padded = (cells: readonly string[]): string => cells.map((cell) => cell.padEnd(12)).join('| ');
  it.each([
    [
      'a stroke in front of each row',
      ['Noc 2026-10-14', `| ${padded(HEAD)}`, `|${'-'.repeat(70)}`, ...ROWS.map((row) => `| ${padded(row)}`)],
    ],
    ['semicolons', ['Noc 2026-10-14', HEAD.join(';'), ...ROWS.map((row) => row.join(';'))]],
  ])('has %s', async (_, lines) => {
    const times = await eventsRead(lines.map((line) => line.trimEnd()));
    expect(times('exposure-begin')).toEqual(of('ekspozycja', 'from'));
    expect(times('exposure-end')).toEqual(of('ekspozycja', 'to'));
    expect(times('dither-end')).toEqual(of('dither', 'to'));
    expect(times('settling-begin')).toEqual(of('uspokajanie', 'from'));
  });
});

describe('a table of steps with lengths, in which guiding goes on for most of the night', () => {
  const spelt = (seconds: number): string =>
    seconds < 3600 ? length(seconds) : `${Math.floor(seconds / 3600)}:${length(seconds % 3600).padStart(5, '0')}`;
  it.each([
    ['Polish', ['początek', 'czas trwania', 'czynność'], ['prowadzenie', 'ekspozycja', 'przesunięcie', 'uspokajanie']],
    ['German', ['Beginn', 'Dauer', 'Was'], ['Nachführung', 'Belichtung', 'Dither', 'Beruhigung']],
  ])('is read in %s', async (_, head, [guiding = '', exposure = '', dither = '', settling = '']) => {
    const row = (what: string, from: number, to: number): string =>
      [`2026-10-14 ${clock(from)}`, spelt(to - from), what].join(';');
    const steps = Array.from({ length: 12 }, (_, i) => i * 330).flatMap((at) => [
      row(exposure, at, at + 300),
      row(dither, at + 304, at + 308),
      row(settling, at + 308, at + 320),
    ]);
    const times = await eventsRead([head.join(';'), row(guiding, -5, 16_800), ...steps]);
    expect(times('exposure-begin')).toHaveLength(12);
    expect(times('exposure-end').slice(0, 2)).toEqual([300, 630]);
    expect(times('settling-end').slice(0, 2)).toEqual([320, 650]);
    expect([...times('guiding-begin'), ...times('guiding-end')]).toEqual([-5, 16_800]);
  });
});
