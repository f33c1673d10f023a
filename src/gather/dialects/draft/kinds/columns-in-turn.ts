import { increment } from '../../../../model/index.js';
import { markBetween } from './cell-parts.js';
import { columnsOfMinutes } from './columns-of-minutes.js';
import type { FieldLine } from './field-line.js';

/**
 * Minimum fraction of rows that fill one of the columns, and of rows that fill each column; maximum fraction that fill
 * two.
 */
const COVERED = 0.95;
const OWN = 0.1;
const BOTH = 0.02;
/** Minimum fraction of the filled cells of a device column, and of all devices, that are alone in their row. */
const ALONE = 0.5;
const MOSTLY_ALONE = 0.75;
/** Minimum number of devices, and of cells of one; maximum fraction of rows that are one's; fraction of sentences. */
const MIN_DEVICES = 3;
const MIN_CELLS = 5;
const MOST_OF_ONE = 0.7;
const MOSTLY = 0.6;
/** Columns say the same: minimum number and fraction of first words of one that also occur in another. */
const SHARED = 0.6;
const MIN_WORDS = 4;

/**
 * The columns in turn of which rows fill several, or cells hold several messages, and the mark between these; empty if
 * each row is one.
 */
export function cellsInTurn(
  lines: readonly FieldLine[],
  timePaths: readonly string[],
): { readonly each: readonly string[]; readonly between: string | null } {
  const paths = columnsInTurn(lines, timePaths);
  const between = paths.length === 0 ? null : markBetween(lines, paths);
  const isFull = ({ fields }: FieldLine): boolean => paths.filter((path) => (fields.get(path) ?? '') !== '').length > 1;
  return { each: between !== null || lines.some(isFull) ? paths : [], between };
}

/**
 * Alternating columns of a table with sentences of the same kinds, one per train: each row fills one of them. One more
 * column may hold what is common to the trains. Empty if there are none.
 */
export function columnsInTurn(lines: readonly FieldLine[], timePaths: readonly string[]): readonly string[] {
  const counts = new Map<string, number>();
  const words = new Map<string, Set<string>>();
  const worded = new Map<string, number>();
  /** How many cells of each column are alone in their row. */
  const alone = new Map<string, number>();
  for (const { fields } of lines) {
    const cells = [...fields].filter(([path, value]) => !timePaths.includes(path) && value !== '');
    for (const [path, value] of cells) {
      increment(counts, path);
      if (/\p{L}{3}|\p{Script=Han}/u.test(value)) increment(worded, path);
      if (cells.length === 1) increment(alone, path);
      const own = words.get(path) ?? new Set<string>();
      const [first = '', second = ''] = value.split(/\s/);
      words.set(path, own.add(first).add(/\d/.test(second) ? first : `${first} ${second}`));
    }
  }
  const paths = [...counts].flatMap(([path, count]) => (count >= OWN * lines.length ? [path] : []));
  if (paths.length < 2) return [];
  if (areOfDevices(counts, alone, worded, lines.length)) return [...counts.keys()];
  const alike = paths.filter((path) =>
    paths.some((other) => other !== path && saysAlike(words.get(path), words.get(other))),
  );
  const isAlike = alike.every((path) => alike.every((other) => saysAlike(words.get(path), words.get(other))));
  if (alike.length < 2 || !isAlike) return columnsOfMinutes(lines, timePaths);
  // A column for each device: each says sentences, nearly always in a row of its own.
  const all = [...counts.keys()];
  const sum = (of: ReadonlyMap<string, number>): number => [...of.values()].reduce((so, one) => so + one, 0);
  const areDevices =
    sum(alone) >= MOSTLY_ALONE * sum(counts) &&
    all.every(
      (path) =>
        (alone.get(path) ?? 0) >= ALONE * (counts.get(path) ?? 0) &&
        (alike.includes(path) || saysSentences([...(words.get(path) ?? [])], 1)),
    );
  if (areDevices) return all;
  const filled = lines.map(({ fields }) => paths.filter((path) => (fields.get(path) ?? '') !== '').length);
  const isTurn =
    filled.filter((count) => count > 0).length >= COVERED * lines.length &&
    filled.filter((count) => count > 1).length <= BOTH * lines.length;
  const others = paths.filter((path) => !alike.includes(path));
  const areSentences = others.every((path) => saysSentences([...(words.get(path) ?? [])], MIN_WORDS));
  return isTurn && others.length <= 1 && areSentences ? paths : columnsOfMinutes(lines, timePaths);
}

/**
 * Whether each column is that of a device, with what it says in a row of its own, whatever its words: rare columns may
 * share their rows.
 */
function areOfDevices(
  counts: ReadonlyMap<string, number>,
  alone: ReadonlyMap<string, number>,
  worded: ReadonlyMap<string, number>,
  rows: number,
): boolean {
  const sum = (of: ReadonlyMap<string, number>): number => [...of.values()].reduce((so, one) => so + one, 0);
  const usual = [...counts].filter(([, count]) => count >= MIN_CELLS);
  return (
    usual.length >= MIN_DEVICES &&
    counts.size >= MIN_DEVICES &&
    sum(alone) >= MOSTLY_ALONE * sum(counts) &&
    sum(alone) >= MOSTLY_ALONE * rows &&
    usual.every(
      ([path, count]) =>
        count <= MOST_OF_ONE * rows &&
        (alone.get(path) ?? 0) >= ALONE * count &&
        (worded.get(path) ?? 0) >= MOSTLY * count,
    )
  );
}

/** The rows without their cells in the other columns. */
export function besideNone(
  lines: readonly FieldLine[],
  path: string,
  columns: readonly string[],
): readonly FieldLine[] {
  return lines.map((line) => {
    const fields = [...line.fields].filter(([other]) => other === path || !columns.includes(other));
    return { ...line, fields: new Map(fields) };
  });
}

/** Whether the sentences of a column begin with words. */
function saysSentences(words: readonly string[], least: number): boolean {
  return words.length >= least && words.every((word) => /\p{L}{2}/u.test(word) && !/\d/.test(word));
}

function saysAlike(a: ReadonlySet<string> = new Set(), b: ReadonlySet<string> = new Set()): boolean {
  const least = Math.min(a.size, b.size);
  const said = [...a].filter((word) => /[^\d.,:+-]/.test(word) && b.has(word)).length;
  return said >= MIN_WORDS && said >= SHARED * least;
}
