import { CLOCK, CLOCK_CELL, filledCells, type SheetLine, type SheetTable } from './sheet-lines.js';
import { spanIn } from './spans.js';

/** A header is among the first lines. */
const HEAD_WITHIN = 80;
/** Columns of a group, and rows of a table, at least. */
const MIN_COLUMNS = 2;
const MIN_ROWS = 5;
/** Begin and end. */
const ENDS = 2;
/** Rows in which several groups are filled. */
const MIN_BESIDE = 3;
/** A day of a spreadsheet, of 2022 to 2033, with what of it is over. */
const DAY = /^4[4-8]\d{3}[.,]\d{3,}$/;
/** What a table is called whose rows are those of several groups, and the column that says whose a row is. */
const SIDE = 'side';

interface Group {
  readonly label: string;
  readonly from: number;
  readonly to: number;
}

/**
 * Side-by-side tables in the same rows, such as the frames of two cameras below headers of the same names: output in
 * sequence, with the name of each in front. Cells to their left apply to all, and to the following rows that omit them.
 * The rows are marked as taken; `null` if no such header is found.
 */
export function sideBySide(lines: readonly SheetLine[]): readonly SheetTable[] | null {
  for (let i = 0; i < Math.min(lines.length, HEAD_WITHIN); i++) {
    const head = lines[i];
    if (head === undefined) break;
    if (head.isTaken) continue;
    const { names, above } = namedInFront(head.cells) ?? { names: head.cells, above: lines[i - 1]?.cells ?? [] };
    const groups = groupsIn(names, above);
    const tables = groups === null ? null : tablesOf(lines, i, names, groups);
    if (tables !== null) return tables;
  }
  return null;
}

/** The groups of columns of which two at least have the same names. @param above what may call each of them */
function groupsIn(names: readonly string[], above: readonly string[]): readonly Group[] | null {
  const width = names.findLastIndex((name) => name !== '') + 1;
  if (width < 2 * MIN_COLUMNS || names.some((name) => CLOCK_CELL.test(name))) return null;
  const first = names.findIndex((name, i) => name !== '' && names.indexOf(name, i + 1) > 0);
  const next = first < 0 ? -1 : names.indexOf(names[first] ?? '', first + 1);
  const wide = next - first;
  if (first < 0 || wide < MIN_COLUMNS || !names.slice(first, next).every((name) => /\p{L}/u.test(name))) return null;
  const starts = [first];
  for (let at = next; at + wide <= width && isSame(names, first, at, wide); at += wide) starts.push(at);
  if (starts.length < 2) return null;
  const labelled = labelledGroups(above, width);
  // Where a line above names groups that differ as well, each is a table of its own.
  if (
    labelled.length > starts.length &&
    starts.every((at) => labelled.some(({ from, to }) => from === at && to >= at + wide))
  )
    return labelled;
  const end = (starts.at(-1) ?? 0) + wide;
  const labelOf = (from: number, to: number): string => above.slice(from, to).find((cell) => cell !== '') ?? '';
  const groups = starts.map((from, i) => ({ label: labelOf(from, from + wide) || `${i + 1}`, from, to: from + wide }));
  return end < width ? [...groups, { label: labelOf(end, width), from: end, to: width }] : groups;
}

/** The groups of columns that the line above names, each up to the next. */
function labelledGroups(above: readonly string[], width: number): readonly Group[] {
  const starts = above.slice(0, width).flatMap((cell, i) => (/^\p{L}/u.test(cell) && !CLOCK.test(cell) ? [i] : []));
  return starts.map((from, k) => ({ label: above[from] ?? '', from, to: starts[k + 1] ?? width }));
}

/**
 * The names of columns that begin with whose they are, `heron open, heron filter, wren open, wren filter`, without it,
 * and a line of these above them; `null` if they are otherwise. Columns behind them are groups of their own.
 */
function namedInFront(names: readonly string[]): { readonly names: string[]; readonly above: string[] } | null {
  const first = (i: number): string => /^(\S+)\s+\S/.exec(names[i] ?? '')?.[1] ?? '';
  const runs: Group[] = [];
  for (let from = 0; from < names.length; ) {
    let to = from + 1;
    while (first(from) !== '' && first(to) === first(from)) to++;
    // `dither start, dither finish`: the two ends of an act, not the columns of a train.
    if (to - from > ENDS) runs.push({ label: first(from), from, to });
    from = to;
  }
  const restOf = ({ label, from, to }: Group): string[] =>
    names.slice(from, to).map((name) => name.slice(label.length).trim());
  const alike = runs.filter((run) =>
    runs.some((other) => other.label !== run.label && String(restOf(other)) === String(restOf(run))),
  );
  if (alike.length < 2) return null;
  const [stripped, above] = [[...names], names.map(() => '')];
  for (const run of alike) {
    above[run.from] = run.label;
    restOf(run).forEach((name, k) => (stripped[run.from + k] = name));
  }
  const end = alike.at(-1)?.to ?? 0;
  if (end < names.length) above[end] = 'beside';
  return { names: stripped, above };
}

function isSame(names: readonly string[], first: number, other: number, wide: number): boolean {
  return Array.from({ length: wide }, (_, k) => k).every((k) => names[first + k] === names[other + k]);
}

function tablesOf(
  lines: readonly SheetLine[],
  head: number,
  names: readonly string[],
  groups: readonly Group[],
): readonly SheetTable[] | null {
  const lead = names.slice(0, groups[0]?.from ?? 0);
  const last = lead.map(() => '');
  const byNames = new Map<string, { columns: string[]; heading: string[]; rows: string[][] }>();
  let beside = 0;
  const taken: SheetLine[] = [];
  for (const [i, line] of lines.entries()) {
    if (line.isTaken) continue;
    if (i === head || isAgain(line, names) || (i > 0 && isHeadOver(lines, i, names))) {
      taken.push(line);
      continue;
    }
    const isTimed = ({ from, to }: Group): boolean => line.cells.slice(from, to).some((cell) => isTime(cell));
    const own = groups.filter(isTimed);
    if (i < head || own.length === 0) continue;
    taken.push(line);
    if (own.length > 1) beside++;
    lead.forEach((_, k) => (last[k] = line.cells[k] || (last[k] ?? '')));
    for (const { label, from, to } of own) {
      const columns = [SIDE, ...lead, ...names.slice(from, to)];
      const key = columns.join('\0');
      const table = byNames.get(key) ?? { columns, heading: [], rows: [] };
      byNames.set(key, table);
      if (!table.heading.includes(label)) table.heading.push(label);
      table.rows.push([label, ...last, ...line.cells.slice(from, to)]);
    }
  }
  const tables = [...byNames.values()];
  if (beside < MIN_BESIDE || !tables.some(({ rows }) => rows.length >= MIN_ROWS)) return null;
  for (const line of taken) line.isTaken = true;
  return tables.map(({ columns, heading, rows }) => withoutEmpty({ heading: heading.join(', '), columns, rows }));
}

/** Whether a cell is a time, from when to when something was, or a spreadsheet day; not a remark that states one. */
function isTime(cell: string): boolean {
  return CLOCK_CELL.test(cell) || isSpanAlone(cell) || DAY.test(cell);
}

function isAgain(line: SheetLine, names: readonly string[]): boolean {
  return names.every((name, k) => name === (line.cells[k] ?? ''));
}

/** Whether the group names are on a line above the header. */
function isHeadOver(lines: readonly SheetLine[], i: number, names: readonly string[]): boolean {
  const [line, below] = [lines[i], lines[i + 1]];
  return line !== undefined && below !== undefined && isAgain(below, names) && filledCells(line).length > 1;
}

/** The table without columns that have no name and hold nothing; rows of one name need none to say whose they are. */
function withoutEmpty(table: SheetTable): SheetTable {
  const isKept = table.columns.map((name, k) => {
    const cells = new Set(table.rows.map((row) => row[k] ?? ''));
    return name === SIDE ? cells.size > 1 : name !== '' || [...cells].some((cell) => cell !== '');
  });
  const kept = (cells: readonly string[]): string[] => cells.filter((_, k) => isKept[k]);
  return { ...table, columns: kept(table.columns), rows: table.rows.map(kept) };
}

function isSpanAlone(cell: string): boolean {
  const span = spanIn(cell);
  return span !== null && !/\p{L}{2}/u.test(span.rest);
}
