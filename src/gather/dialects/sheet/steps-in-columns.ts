import { CLOCK, CLOCK_CELL, type SheetTable } from './sheet-lines.js';
import { SPAN, spanIn } from './spans.js';

/** Filled cells of a column, and the fraction of them, that are spans. */
const MIN_SPANS = 2;
const ARE_SPANS = 0.9;
/** A date alone. */
const DATE = /^(?:\d{4}[-./]\d{1,2}[-./]\d{1,2}|\d{1,2}[-./]\d{1,2}[-./]\d{2,4}\.?)$/;
/** A date and time as in ISO 8601, alone. */
const STAMP = /^(\d{4}-\d{2}-\d{2})([T ])(\d{2}):\d{2}(?::\d{2}(?:\.\d+)?)?(Z|[+-]\d{2}:?\d{2})?$/;
const DAY_MS = 86_400_000;
/** Hours by which a step is after the row's own time that was the evening before. */
const EVENING = 12;
/** Different values of a column that says whose a row is, or what it is about. */
const MOST_VALUES = 8;

/**
 * Columns of a table whose cells say from when to when the thing went on that their names say (`nudged before, from-to`
 * above `19:58:40-19:58:42`): a table of their own with a row for each such cell, and what the row says of its train,
 * filter and object. A column that is only filled beside a span explains it. `null` if there are no such columns.
 */
export function stepsInColumns(table: SheetTable): { steps: SheetTable; rest: SheetTable } | null {
  const { columns, rows } = table;
  const cellsOf = (i: number): string[] => rows.map((row) => row[i] ?? '').filter((cell) => cell !== '');
  const holdSpans = columns.flatMap((name, i) => {
    const cells = cellsOf(i);
    const own = cells.filter((cell) => SPAN.test(cell)).length;
    return /\p{L}{2}/u.test(name) && own > 0 && own >= ARE_SPANS * cells.length ? [i] : [];
  });
  // Beside steps that come again and again, one may have been once.
  const spans = holdSpans.some((i) => cellsOf(i).length >= MIN_SPANS) ? holdSpans : [];
  const isOwn = (cell: string): boolean => CLOCK_CELL.test(cell) || STAMP.test(cell);
  const isTimed = columns.some((_, i) => cellsOf(i).filter(isOwn).length * 2 > rows.length);
  // A table may be of such columns alone.
  if (spans.length === 0 || (!isTimed && spans.length < 2)) return null;
  const about = columns.flatMap((_, i) => {
    const cells = cellsOf(i);
    const isName = cells.every((cell) => DATE.test(cell) || (/\p{L}/u.test(cell) && !CLOCK.test(cell)));
    return isName && cells.length === rows.length && new Set(cells).size <= MOST_VALUES ? [i] : [];
  });
  const besides = (i: number): number[] => {
    const further: number[] = [];
    for (let k = i + 1; k < columns.length && !spans.includes(k) && !about.includes(k); k++) {
      const filled = rows.filter((row) => (row[k] ?? '') !== '');
      if (filled.length === 0 || !filled.every((row) => (row[i] ?? '') !== '')) break;
      further.push(k);
    }
    return further;
  };
  const explained = new Map(spans.map((i) => [i, besides(i)] as const));
  const aboutOf = (r: number, from: string): string[] =>
    about.map((k) => {
      const cell = rows[r]?.[k] ?? '';
      const own = rows[r]?.find((one) => CLOCK_CELL.test(one)) ?? from;
      const isBefore = DATE.test(cell) && Number.parseInt(from, 10) - Number.parseInt(own, 10) > EVENING;
      return isBefore ? (rows.slice(0, r).findLast((above) => above[k] !== cell)?.[k] ?? cell) : cell;
    });
  const steps = rows.flatMap((row, r) =>
    spans.flatMap((i) => {
      const span = spanIn(row[i] ?? '');
      if (span === null) return [];
      const stamp = row.find((one) => STAMP.test(one));
      const [from, until] = [span.from, span.until].map((one) => (stamp === undefined ? one : stampLike(stamp, one)));
      const nameOf = (k: number): string => (columns[k] ?? '').replace(`${columns[i] ?? ''} `, '');
      const more = (explained.get(i) ?? []).flatMap((k) => (row[k] ? `${nameOf(k)} ${row[k] ?? ''}` : []));
      const said = [stepOf(columns[i] ?? ''), span.rest, ...more].join(' ');
      return [[from ?? '', until ?? '', ...aboutOf(r, span.from), said.replace(/\s+/g, ' ').trim()]];
    }),
  );
  const moved = new Set([...spans, ...[...explained.values()].flat()]);
  const kept = (cells: readonly string[]): string[] => cells.filter((_, i) => !moved.has(i));
  return {
    rest: { ...table, columns: kept(columns), rows: rows.map(kept) },
    steps: { heading: 'steps', columns: ['from', 'until', ...about.map((i) => columns[i] ?? ''), 'step'], rows: steps },
  };
}

/** A time of day as a stamp like that of its row, on the day nearest to it. */
function stampLike(stamp: string, clock: string): string {
  const [, date = '', between = 'T', hour = '0', zone = ''] = STAMP.exec(stamp) ?? [];
  const away = Number.parseInt(clock, 10) - Number(hour);
  const days = away > EVENING ? -1 : away < -EVENING ? 1 : 0;
  const day = new Date(Date.parse(`${date}T00:00:00Z`) + days * DAY_MS);
  return Number.isNaN(day.getTime()) ? clock : `${day.toISOString().slice(0, 10)}${between}${clock}${zone}`;
}

/** What a column is about: its name without that it is before the frame, and from when to when. */
function stepOf(name: string): string {
  return name
    .replace(/^\p{L}+\s*:\s*/u, '')
    .replace(/,?\s*(?:from|de|von|da|od)?\s*[-–]\s*(?:to|a|à|bis|do)?\s*$/iu, '');
}
