import { blockTexts, lineEnd, lineStart, readLines } from '../lines/read-lines.js';
import type { DocumentLines } from '../lines/document-buffer.js';
import { WarningTally } from '../lines/warning-tally.js';
import type { CompiledDialect } from './compiled.js';
import { newStamp } from './time/stamp.js';

const DAY_MS = 86_400_000;

/**
 * The date that a line of a log states, for stamps with month and day only, or with neither if it is the evening's.
 *
 * @returns its midnight as if it were UTC, ms; NaN if the line states none or the dialect needs none
 */
export type DateOfLine = (text: string) => number;

/** How a dialect reads the date of a line; `null` if its stamps need none. */
export function dateOfLine({ time: { date, patterns } }: CompiledDialect): DateOfLine | null {
  if (date.from !== 'header') return null;
  const { when, pattern, evening } = date;
  const isYearless = patterns.some(({ kind }) => kind === 'month-day-time');
  // Dates that begin on their line say nothing of the lines above.
  const isOfEvening = evening && patterns.some(({ kind }) => kind === 'time');
  if (!isYearless && !isOfEvening) return null;
  if (pattern.kind !== 'date' && !(isYearless && pattern.kind === 'year')) return null;
  const group = when.groups.get('date') ?? 0;
  const stamp = newStamp();
  return (text) => {
    const stated = Buffer.from(when.exec(text)?.[group] ?? '');
    const isDate = stated.length > 0 && pattern.find(stated, 0, stated.length, stamp);
    return isDate ? Math.floor(stamp.ms / DAY_MS) * DAY_MS : NaN;
  };
}

/**
 * The first date that a log states, for such stamps: it may stand below them, as at the foot of a page, or of one that
 * was saved with its newest line on top.
 *
 * @param wholeText how a log that has to be seen as a whole becomes lines
 * @returns its midnight as if it were UTC, ms; NaN if the dialect needs none or the log states none
 */
export async function firstDateMs(
  rootDir: string,
  relativePath: string,
  dialect: CompiledDialect,
  wholeText: DocumentLines | null,
): Promise<number> {
  const dateOf = dateOfLine(dialect);
  if (dateOf === null) return NaN;
  let firstMs = NaN;
  // What is wrong with the file is reported when it is read.
  const tally = new WarningTally(relativePath);
  await readLines(
    rootDir,
    relativePath,
    dialect.encoding,
    tally,
    (block) => {
      const textOf = blockTexts(block);
      for (let i = 0; i < block.count && Number.isNaN(firstMs); i++)
        firstMs = dateOf(textOf(lineStart(block, i), lineEnd(block, i)));
    },
    dialect.objects,
    wholeText,
  );
  return firstMs;
}
