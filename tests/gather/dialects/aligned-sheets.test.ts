import { describe, expect, it } from 'vitest';
import { sheetRows } from '../../../src/gather/dialects/sheet/sheet-rows.js';
import { drafted } from './support/drafted.js';

const clock = (seconds: number): string => new Date(seconds * 1000).toISOString().slice(11, 19);

/** Twelve rounds of two trains from 20:00, with a nudge and its settling before every third. */
const FRAMES = Array.from({ length: 24 }, (_, i) => {
  const begin = 72_000 + Math.floor(i / 2) * 330 + (i % 2) * 2;
  const nudged = i % 6 === 0 && i > 0;
  return { train: i % 2 === 0 ? 'heron' : 'wren', begin, end: begin + 300, filter: i % 2 === 0 ? 'Ha' : 'L', nudged };
});
const HEAD = ['Cierzo Hill, UTC', 'night of 2026-10-14', ''];

/** The events that a draft has rules for. */
function eventsIn(lines: readonly string[]): Map<string, number> {
  const found = new Map<string, number>();
  for (const { events, count } of drafted(lines).report.rules)
    for (const { event } of events) found.set(event, (found.get(event) ?? 0) + count);
  return found;
}

const EXPOSED = { 'exposure-begin': 24, 'exposure-end': 24 };
const NUDGED = { 'dither-begin': 3, 'dither-end': 3, 'settling-begin': 3, 'settling-end': 3 };

describe('text in aligned columns', () => {
  it.each([
    ['"', 'train   step      filter', 'heron   exposure  Ha    '],
    ['dto.', 'train   step      filter', 'heron   exposure  Ha    '],
  ])('has the values above for %s', (mark, names) => {
    const rows = FRAMES.map(({ train, begin, end, filter }, i) => {
      const date = i === 0 ? '2026-10-14' : mark;
      const own = [i > 0 && i % 4 === 1 ? mark : train, i === 0 ? 'exposure' : mark, filter];
      return [date.padEnd(12), `${clock(begin)}  ${clock(end)}  `, own.map((cell) => cell.padEnd(10)).join('')].join(
        '',
      );
    });
    const [train, step, filter] = names.split(/ +/);
    const head = `${'date'.padEnd(12)}from      until     ${[train, step, filter].map((one = '') => one.padEnd(10)).join('')}`;
    expect(sheetRows([...HEAD, head, ...rows])?.[5]).toBe(
      `2026-10-14\t${clock(72_002)}\t${clock(72_302)}\theron\texposure\tL`,
    );
  });

  it.each([
    ['before: nudge', 'before: settling', 'shutter open', 'shutter closed', '-'],
    ['avant: décalage', 'avant: stabilisation', 'obturateur ouvert', 'obturateur fermé', ' à '],
  ])('with a column for each frame and steps before it is read: %s', (nudge, settling, open, closed, to) => {
    const blocks = Array.from({ length: 6 }, (_, k) => FRAMES.slice(k * 4, k * 4 + 4)).flatMap((own, k) => {
      const span = (begin: number, end: number): string => `${clock(begin)}${to}${clock(end)}`;
      const line = (name: string, of: (frame: (typeof own)[number]) => string): string =>
        name.padEnd(24) + own.map((frame) => of(frame).padEnd(24)).join('');
      const isNudged = own.some(({ nudged }) => nudged);
      return [
        `block ${k + 1}`,
        line('train', ({ train }) => train),
        ...(isNudged ? [line(nudge, ({ nudged, begin }) => (nudged ? span(begin - 25, begin - 22) : '.'))] : []),
        ...(isNudged ? [line(settling, ({ nudged, begin }) => (nudged ? span(begin - 22, begin - 8) : '.'))] : []),
        line('filter', ({ filter }) => filter),
        line(open, ({ begin }) => clock(begin)),
        line(closed, ({ end }) => clock(end)),
        '',
      ];
    });
    expect(Object.fromEntries(eventsIn([...HEAD, ...blocks]))).toEqual({ ...EXPOSED, ...NUDGED });
  });

  it('with dotted lines to fill in for each frame is read, with what happened before it', () => {
    const forms = FRAMES.flatMap(({ train, begin, end, filter, nudged }, i) => {
      const pair = (label: string, value: string): string => `${`${label} `.padEnd(24, '.')} ${value}`.padEnd(44);
      const span = (from: number, to: number): string => (nudged ? `${clock(from)}-${clock(to)}` : '');
      return [
        `SHEET ${i + 1}   train: ${train}   date: 2026-10-14`,
        pair('Filter', filter) + pair('Seconds', '300'),
        pair('Shutter opened', clock(begin)) + pair('Shutter closed', clock(end)),
        pair('Nudge before', span(begin - 25, begin - 22)) + pair('Settling', span(begin - 22, begin - 8)),
      ].map((line) => line.trimEnd());
    });
    expect(Object.fromEntries(eventsIn([...HEAD, ...forms]))).toEqual({ ...EXPOSED, ...NUDGED });
  });

  it.each([
    ['exposure', 'until', 'on M 76'],
    ['pose', "jusqu'à", 'sur M 76'],
  ])('whose rows go on below is read: %s', (exposure, until, object) => {
    const row = (...cells: string[]): string =>
      `| ${cells.map((cell, i) => cell.padEnd(i < 2 ? 8 : 24)).join(' | ')} |`;
    const rows = FRAMES.flatMap(({ train, begin, end, filter }) => [
      row(clock(begin), train, `${exposure} ${filter} 300 s`),
      row('', '', object),
      row('', '', `${until} ${clock(end)}`),
    ]);
    const found = eventsIn([...HEAD, row('UTC', 'train', 'what'), ...rows]);
    expect(found.get('exposure-begin')).toBe(24);
  });

  it('is no sheet where it is prose', () => {
    const prose = Array.from(
      { length: 30 },
      (_, i) => `at ${clock(72_000 + i * 60)} we looked at the sky ${'again '.repeat(i % 5)}`,
    );
    expect(sheetRows(prose)).toBeNull();
  });
});
