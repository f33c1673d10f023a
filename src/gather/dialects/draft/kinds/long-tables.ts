import { groupBy } from '../../../../model/index.js';
import { wordEvidence } from '../lexicon/word-evidence.js';
import { pathsOf, type FieldLine } from './field-line.js';
import { isFilterName, isFrameFile, typeOf } from './values.js';

/** The columns of names and values of a long table, and the names whose values are words. */
export interface LongTable {
  readonly name: string;
  readonly value: string;
  readonly ofWords: ReadonlySet<string>;
  /** Those whose values are details of what the words of one other name say: `fokus/position` beside `fokus/state`. */
  readonly details: ReadonlySet<string>;
}

const MIN_ROWS = 20;
const NEARLY_ALL = 0.95;
/** Columns that are filled in nearly all rows beside the time: name, value, and perhaps device, train and unit. */
const MOST_COLUMNS = 5;
/** Number of names, and of words of one of them. */
const NAMES = { least: 4, most: 80 } as const;
const MOST_WORDS = 14;
const LONGEST = 40;
/** Minimum number of names whose values are words, and of others. */
const LEAST = { words: 2, readings: 2 } as const;

/**
 * A long table, as loggers of readings and message buses write them: `cierzo/heron/camera/state` `exposing` beside
 * `cierzo/heron/hfr` `2.31`. The values of some names are words that say what happens, those of others numbers, files
 * or objects. `null` if rows are something else.
 */
export function longTable(lines: readonly FieldLine[], timePaths: readonly string[]): LongTable | null {
  if (lines.length < MIN_ROWS) return null;
  const paths = pathsOf(lines, timePaths);
  const least = NEARLY_ALL * lines.length;
  const filled = paths.filter((path) => lines.filter(({ fields }) => fields.has(path)).length >= least);
  // Rows that fill more columns state several things at once: a table of states has columns of words as well.
  if (filled.length > MOST_COLUMNS) return null;
  for (const value of filled)
    for (const name of filled) {
      if (name === value) continue;
      const groups = groupBy(lines, ({ fields }) => fields.get(name) ?? '');
      const names = [...groups.keys()].filter((one) => one !== '');
      if (names.length < NAMES.least || names.length > NAMES.most || !names.every((one) => /^\p{L}/u.test(one)))
        continue;
      const ofWords = new Set(names.filter((one) => holdsWords(groups.get(one) ?? [], value)));
      const readings = names.filter((one) => !ofWords.has(one) && isOfValues(groups.get(one) ?? [], value));
      if (ofWords.size >= LEAST.words && readings.length >= LEAST.readings && !repeats(lines, name, value))
        return {
          name,
          value,
          ofWords,
          details: detailsOf(names, ofWords, (one) => isFileOf(groups.get(one) ?? [], value)),
        };
    }
  return null;
}

/** The readings of a device that says in words, below one name, what it does; a file that it writes is an event. */
function detailsOf(
  names: readonly string[],
  ofWords: ReadonlySet<string>,
  isFile: (name: string) => boolean,
): ReadonlySet<string> {
  const deviceOf = (name: string): string => name.replace(/[/.][^/.]*$/, '');
  const saying = groupBy([...ofWords], deviceOf);
  return new Set(
    names.filter(
      (one) =>
        !ofWords.has(one) &&
        deviceOf(one) !== one &&
        saying.get(deviceOf(one))?.length === 1 &&
        !isFile(one) &&
        !isOfExposures(one),
    ),
  );
}

/** A length of exposures is worth more than the word that follows it. */
function isOfExposures(name: string): boolean {
  const [best] = [...wordEvidence(name.replace(/^.*[/.]/, ' '))].sort((a, b) => b[1] - a[1]);
  return best?.[0].startsWith('exposure') === true;
}

function isFileOf(own: readonly FieldLine[], value: string): boolean {
  return own.some(({ fields }) => isFrameFile(fields.get(value) ?? ''));
}

/** Whether the values of a name are a few words; beside them there may be filters. */
function holdsWords(own: readonly FieldLine[], value: string): boolean {
  const values = [...new Set(own.map(({ fields }) => fields.get(value) ?? ''))];
  const words = values.filter((one) => !isFilterName(one));
  return (
    values.length >= 2 &&
    values.length <= MOST_WORDS &&
    words.length > 0 &&
    words.every((one) => /\p{L}{2}/u.test(one) && one.length <= LONGEST && typeOf([one]) === 'text')
  );
}

/** Whether the values of a name are no words: numbers, files or objects. */
function isOfValues(own: readonly FieldLine[], value: string): boolean {
  return own.every(({ fields }) => typeOf([fields.get(value) ?? '']) !== 'text');
}

/** Whether a value is also a name, as where devices and what they do share words: then no column holds names. */
function repeats(lines: readonly FieldLine[], name: string, value: string): boolean {
  const names = new Set(lines.map(({ fields }) => fields.get(name) ?? ''));
  return lines.some(({ fields }) => names.has(fields.get(value) ?? ''));
}
