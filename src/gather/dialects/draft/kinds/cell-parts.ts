import type { FieldLine } from './field-line.js';

/** What stands between messages in a cell. */
const MARKS = [';', ' / ', ' | ', ' · ', ' + '] as const;
/** Minimum number and fraction of cells with several messages; of these, the fraction that begins as others do. */
const MIN_CELLS = 4;
const SHARE = 0.02;
const ALIKE = 0.6;

/**
 * The mark between several messages in a cell of these columns, `end of no. 34; no. 35 begins`: the messages begin
 * with words, and mostly with those of other cells. `null` if cells hold one message each.
 */
export function markBetween(lines: readonly FieldLine[], columns: readonly string[]): string | null {
  const cells = lines.flatMap(({ fields }) => columns.flatMap((column) => fields.get(column) || []));
  const found = MARKS.find((mark) => {
    const several = cells.map((cell) => partsBy(cell, mark)).filter((parts) => parts.length > 1);
    if (several.length < Math.max(MIN_CELLS, SHARE * cells.length)) return false;
    const counts = new Map<string, number>();
    for (const cell of cells)
      for (const part of partsBy(cell, mark)) counts.set(firstWord(part), (counts.get(firstWord(part)) ?? 0) + 1);
    const parts = several.flat();
    const isAlike = (part: string): boolean => /^\p{L}/u.test(part) && (counts.get(firstWord(part)) ?? 0) > 1;
    return parts.filter(isAlike).length >= ALIKE * parts.length;
  });
  return found ?? null;
}

/** Fractions of line numbers keep the messages of a cell in order. */
const NTH = 1 / 256;

/** The rows with a row for each message of a cell of this column, whose line numbers have fractions. */
export function apartBy(lines: readonly FieldLine[], column: string, mark: string | null): readonly FieldLine[] {
  if (mark === null) return lines;
  return lines.flatMap((line) => {
    const parts = partsBy(line.fields.get(column) ?? '', mark);
    return parts.length < 2
      ? [line]
      : parts.map((part, i) => ({
          ...line,
          line: line.line + i * NTH,
          fields: new Map(line.fields).set(column, part),
        }));
  });
}

function partsBy(cell: string, mark: string): string[] {
  return cell
    .split(mark)
    .map((part) => part.trim())
    .filter((part) => part !== '');
}

const firstWord = (text: string): string => /^\P{N}\S*/u.exec(text)?.[0] ?? '#';
