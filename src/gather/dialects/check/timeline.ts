import { spanBegunBy, SPANS, type BeginEvent, type LogEvent } from '../../../model/index.js';
import type { StatedSpan } from './contradictions.js';

/** Columns that the night takes where there is room, and those it takes at least. */
const MOST_COLUMNS = 72;
const LEAST_COLUMNS = 12;
/** A label is cut beyond this; a narrow terminal leaves it less. */
const LONGEST_LABEL = 24;
/** What the last label of the scale takes beyond its column. */
const SCALE_END = 3;
const HOUR_MS = 3_600_000;

/**
 * A timeline as rows of characters: a scale of hours, then one row per kind of span (`#`) and one for momentary events
 * (`.`). A column is marked when anything of the kind falls into it.
 *
 * @param room columns that a row may take
 */
export function timelineRows(spans: readonly StatedSpan[], events: readonly LogEvent[], room = Infinity): string[] {
  let startMs = Infinity;
  let endMs = -Infinity;
  for (const { atMs } of events) {
    startMs = Math.min(startMs, atMs);
    endMs = Math.max(endMs, atMs);
  }
  if (!(endMs > startMs)) return [];
  const marks = marksOf(spans, events);
  const labels = [...new Set(marks.map(({ label }) => label))];
  const longest = Math.min(LONGEST_LABEL, Math.max(5, ...labels.map((label) => label.length)));
  const width = Math.max(5, Math.min(longest, room - LEAST_COLUMNS - SCALE_END - 1));
  const columns = Math.max(LEAST_COLUMNS, Math.min(MOST_COLUMNS, room - width - SCALE_END - 1));
  const column = (atMs: number): number =>
    Math.min(columns - 1, Math.floor(((atMs - startMs) / (endMs - startMs)) * columns));
  const rows = new Map(labels.map((label) => [label, new Array<string>(columns).fill(' ')]));
  for (const { label, fromMs, toMs, sign } of marks) rows.get(label)?.fill(sign, column(fromMs), column(toMs) + 1);
  return [
    `${' '.repeat(width)} ${scale(startMs, endMs, column, columns)}`,
    ...[...rows].map(([label, row]) => `${label.slice(0, width).padEnd(width)} ${row.join('')}`.trimEnd()),
  ];
}

interface Mark {
  readonly label: string;
  readonly fromMs: number;
  readonly toMs: number;
  readonly sign: '#' | '.';
}

function marksOf(spans: readonly StatedSpan[], events: readonly LogEvent[]): Mark[] {
  return [
    ...spans.map(({ begin, train, startMs, endMs }): Mark => {
      const label = `${labelOf(begin)}${train === undefined ? '' : ` ${train}`}`;
      return { label, fromMs: startMs, toMs: endMs ?? startMs, sign: '#' };
    }),
    ...events.flatMap(({ event, atMs }): Mark[] =>
      event === 'frame-saved' || event === 'dither-ready'
        ? [{ label: event, fromMs: atMs, toMs: atMs, sign: '.' }]
        : [],
    ),
  ];
}

/** Hours under their columns, as many as fit: one in six columns at most. */
function scale(startMs: number, endMs: number, column: (atMs: number) => number, columns: number): string {
  const step = Math.max(1, Math.ceil((endMs - startMs) / HOUR_MS / (columns / 6))) * HOUR_MS;
  const row = new Array<string>(columns + SCALE_END).fill(' ');
  for (let atMs = Math.ceil(startMs / step) * step; atMs <= endMs; atMs += step) {
    const label = `${new Date(atMs).toISOString().slice(11, 13)}h`;
    row.splice(column(atMs), label.length, ...label);
  }
  return row.join('').trimEnd();
}

function labelOf(begin: BeginEvent): string {
  const span = spanBegunBy(begin);
  return span === undefined ? begin : SPANS[span].label;
}
