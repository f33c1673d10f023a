import { CLOCK_CELL, filledCells, type SheetLine, type SheetTable } from './sheet-lines.js';

/** A header is among the first lines. */
const HEAD_WITHIN = 80;
/** Columns of a group, and rows of a table, at least. */
const MIN_COLUMNS = 2;
const MIN_ROWS = 5;
/** Rows in which several groups are filled. */
const MIN_BESIDE = 3;
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
    const groups = groupsIn(head.cells, lines[i - 1]?.cells ?? []);
    const tables = groups === null ? null : tablesOf(lines, i, groups);
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
  const end = (starts.at(-1) ?? 0) + wide;
  const labelOf = (from: number, to: number): string => above.slice(from, to).find((cell) => cell !== '') ?? '';
  const groups = starts.map((from, i) => ({ label: labelOf(from, from + wide) || `${i + 1}`, from, to: from + wide }));
  return end < width ? [...groups, { label: labelOf(end, width), from: end, to: width }] : groups;
}

function isSame(names: readonly string[], first: number, other: number, wide: number): boolean {
  return Array.from({ length: wide }, (_, k) => k).every((k) => names[first + k] === names[other + k]);
}

function tablesOf(lines: readonly SheetLine[], head: number, groups: readonly Group[]): readonly SheetTable[] | null {
  const names = lines[head]?.cells ?? [];
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
    const isTimed = ({ from, to }: Group): boolean => line.cells.slice(from, to).some((cell) => CLOCK_CELL.test(cell));
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
