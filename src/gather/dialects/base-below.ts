import type { DocumentLines } from '../lines/document-buffer.js';
import type { LineBlock } from '../lines/line-block.js';
import { readLines } from '../lines/read-lines.js';
import { WarningTally } from '../lines/warning-tally.js';
import type { CompiledDialect } from './compiled.js';
import { DialectReader } from './dialect-reader.js';
import type { CountBase } from './time/count-base.js';
import type { LogClock } from './time/log-clock.js';

/** Finds what the relative times of a whole log count from, before its lines are read for what they say. */
export interface BaseSearch {
  take(block: LineBlock): void;
  /** `null` as long as no line has stated it. */
  readonly found: CountBase | null;
}

/**
 * A search for the line of a section that applies to the lines above as well; `null` if the dialect has none.
 *
 * @param clockOf makes the clock of the log, with its own tally: what is wrong is reported when the log is read
 */
export function baseSearch(
  dialect: CompiledDialect,
  path: string,
  clockOf: (tally: WarningTally) => LogClock,
): BaseSearch | null {
  const sections = dialect.sections.filter(({ isAbove }) => isAbove);
  if (sections.length === 0) return null;
  const tally = new WarningTally(path);
  const clock = clockOf(tally);
  const alone = { ...dialect, sections, lines: [], ignore: [], guiding: null, states: null, stateLines: null };
  const reader = new DialectReader(alone, path, undefined, clock, tally, null);
  return {
    take: (block) => {
      if (clock.wholeBase === null) reader.take(block);
    },
    get found() {
      return clock.wholeBase;
    },
  };
}

/** Reads a log up to the line that states what its relative times count from; `null` if none does or need. */
export async function baseBelow(
  rootDir: string,
  path: string,
  dialect: CompiledDialect,
  wholeText: DocumentLines | null,
  clockOf: (tally: WarningTally) => LogClock,
): Promise<CountBase | null> {
  const search = baseSearch(dialect, path, clockOf);
  if (search === null) return null;
  const { take } = search;
  await readLines(rootDir, path, dialect.encoding, new WarningTally(path), take, dialect.objects, wholeText);
  return search.found;
}
