import { spanBegunBy, SPANS, type BeginEvent, type LogEvent } from '../../../model/index.js';
import type { StatedSpan } from './contradictions.js';

const COLUMNS = 72;
const HOUR_MS = 3_600_000;

/**
 * A timeline as rows of characters: a scale of hours, then one row per kind of span (`#`) and one for momentary events
 * (`.`). A column is marked when anything of the kind falls into it.
 */
export function timelineRows(spans: readonly StatedSpan[], events: readonly LogEvent[]): string[] {
  let startMs = Infinity;
  let endMs = -Infinity;
  for (const { atMs } of events) {
    startMs = Math.min(startMs, atMs);
    endMs = Math.max(endMs, atMs);
  }
  if (!(endMs > startMs)) return [];
  const column = (atMs: number): number =>
    Math.min(COLUMNS - 1, Math.floor(((atMs - startMs) / (endMs - startMs)) * COLUMNS));
  const rows = new Map<string, string[]>();
  const mark = (label: string, fromMs: number, toMs: number, sign: string): void => {
    const row = rows.get(label) ?? new Array<string>(COLUMNS).fill(' ');
    rows.set(label, row);
    row.fill(sign, column(fromMs), column(toMs) + 1);
  };
  for (const { begin, train, startMs: from, endMs: to } of spans) {
    mark(`${labelOf(begin)}${train === undefined ? '' : ` ${train}`}`, from, to ?? from, '#');
  }
  for (const { event, atMs } of events)
    if (event === 'frame-saved' || event === 'dither-ready') mark(event, atMs, atMs, '.');
  const labels = [...rows.keys()];
  const width = Math.min(24, Math.max(5, ...labels.map((label) => label.length)));
  return [
    `${' '.repeat(width)} ${scale(startMs, endMs, column)}`,
    ...labels.map((label) => `${label.slice(0, width).padEnd(width)} ${(rows.get(label) ?? []).join('')}`.trimEnd()),
  ];
}

/** Hours under their columns, as many as fit. */
function scale(startMs: number, endMs: number, column: (atMs: number) => number): string {
  const step = Math.max(1, Math.ceil((endMs - startMs) / HOUR_MS / 12)) * HOUR_MS;
  const row = new Array<string>(COLUMNS + 3).fill(' ');
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
