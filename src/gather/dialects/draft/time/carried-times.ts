import { isTime } from './first-fields.js';

type Cells = ReadonlyMap<string, string>;

/** Minimum number of rows without a time, and fractions of rows with and without one. */
const MIN_ROWS = 20;
const TIMED = 0.3;
const UNTIMED = 0.05;
/** Minimum fraction of a column's cells that are times. */
const ARE_TIMES = 0.98;
/** Maximum fraction of neighbouring rows with the same time: it would not have been repeated. */
const REPEATED = 0.02;
/** Minimum fraction of the rows without a time whose words other rows have as well. */
const ALIKE = 0.8;

/**
 * The rows of a table whose time cell is empty where it would be that of the row above, with that time; `null` if no
 * column is like that: all others state it in every row, no row repeats the time above it, and rows without one say
 * what others say.
 */
export function carriedTimes<T extends { readonly fields: Cells }>(rows: readonly T[]): T[] | null {
  const names = [...new Set(rows.flatMap(({ fields }) => [...fields.keys()]))];
  const times = names.filter((name) => {
    const cells = rows.flatMap(({ fields }) => fields.get(name) ?? []);
    return cells.length >= TIMED * rows.length && cells.filter(isTime).length >= ARE_TIMES * cells.length;
  });
  const [path] = times;
  if (path === undefined || times.length > 1) return null;
  const first = rows.findIndex(({ fields }) => fields.has(path));
  const below = rows.slice(first);
  const untimed = below.filter(({ fields }) => !fields.has(path));
  if (untimed.length < Math.max(MIN_ROWS, UNTIMED * rows.length) || repeats(below, path) || !areAlike(below, path))
    return null;
  let last = '';
  return rows.map((row) => {
    last = row.fields.get(path) ?? last;
    return last === '' || row.fields.has(path) ? row : { ...row, fields: withTime(row.fields, names, path, last) };
  });
}

/** The cells in the order of the columns. */
function withTime(fields: Cells, names: readonly string[], path: string, time: string): Cells {
  return new Map(
    names.flatMap((name): [string, string][] => {
      const cell = name === path ? time : fields.get(name);
      return cell === undefined ? [] : [[name, cell]];
    }),
  );
}

function repeats(rows: readonly { readonly fields: Cells }[], path: string): boolean {
  const pairs = rows.slice(1).map(({ fields }, i) => [rows[i]?.fields.get(path), fields.get(path)] as const);
  const timed = pairs.filter(([above, own]) => above !== undefined && own !== undefined);
  return timed.filter(([above, own]) => above === own).length > REPEATED * timed.length;
}

/** Whether rows without a time say, in one column or in those of several devices, what rows with one say there. */
function areAlike(rows: readonly { readonly fields: Cells }[], path: string): boolean {
  const [timed, untimed] = [
    rows.filter(({ fields }) => fields.has(path)),
    rows.filter(({ fields }) => !fields.has(path)),
  ];
  const columns = [...new Set(untimed.flatMap(({ fields }) => [...fields.keys()]))];
  const said = new Map(
    columns.map((name) => [name, timed.flatMap(({ fields }) => sayingsIn(fields.get(name) ?? ''))] as const),
  );
  const words = new Map([...said].map(([name, own]) => [name, new Set(own)] as const));
  // A column of remarks repeats nothing.
  const telling = columns.filter((name) => (words.get(name)?.size ?? 0) <= (said.get(name)?.length ?? 0) / 2);
  const isAlike = ({ fields }: { readonly fields: Cells }): boolean =>
    telling.some((name) => sayingsIn(fields.get(name) ?? '').some((saying) => words.get(name)?.has(saying) === true));
  return untimed.filter(isAlike).length >= ALIKE * untimed.length;
}

/** What a cell says, but for its numbers: one thing, or several with semicolons between. */
function sayingsIn(cell: string): readonly string[] {
  return cell.split(';').flatMap((part) => (/\p{L}{2}/u.test(part) ? [part.trim().replace(/\d+/g, '#')] : []));
}
