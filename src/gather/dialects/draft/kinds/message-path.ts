import { courseOf, namesSubject, saidBy } from '../lexicon/said.js';
import { isTime } from '../time/first-fields.js';
import type { FieldLine } from './field-line.js';
import { isFilterName, isFrameFile, isNumber, isSpan } from './values.js';

const YES_NO = /^(?:true|false|yes|no|ok|null|none)$/i;
const DESIGNATION = /^(?:NGC|IC|UGC|PGC|LDN|LBN|Sh-?2|Arp|Abell|Barnard|vdB|M)[ _-]?\d+/i;
const TIME_LIKE = /\d{1,2}:\d{2}|\d{4}-\d{2}-\d{2}|\b\d{8}[T_]\d{4}/;
/** Maximum number of different values of a field that says what happened; sentences have more. */
export const MAX_DISTINCT = 80;

/** A field of the log's records: how many have it, and its values with their counts. */
export interface PathFacts {
  readonly path: string;
  count: number;
  readonly values: Map<string, number>;
}

/** Minimum number and fraction of records with sentences, among others with values only, such as guiding samples. */
const MIN_SENTENCES = 20;
const FEW = 0.05;
/** Maximum number of values of the adjacent fields per distinct sentence. */
const BESIDE = 0.3;
const HARDLY = 0.1;

/** The field with sentences, whose wording is classified like that of a text log. */
export function messagePath(facts: readonly PathFacts[], lines: readonly FieldLine[]): string | null {
  const path =
    sentencePath(facts, lines.length / 2, wordShare) ??
    rarerPath(facts, lines, wordShare, BESIDE) ??
    // Frequent sentences such as `saved night_0012.fits` look like values.
    rarerPath(facts, lines, wordOrFileShare, HARDLY) ??
    sayingMost(facts, lines.length) ??
    onlyPath(facts, lines.length);
  if (path === null) return null;
  return besideResults(path, facts, lines.length) ?? (holdsRemarks(path, facts, lines.length) ? null : path);
}

/** The only field beside the time that is not the same all the way, if its texts state values. */
function onlyPath(facts: readonly PathFacts[], records: number): string | null {
  const [only, ...others] = facts.filter(({ values }) => values.size > 1);
  if (only === undefined || others.length > 0 || only.count < NEARLY_ALL * records) return null;
  const states = [...only.values.keys()].some((value) => /\d/.test(value) && /\p{L}{2}.*\s/u.test(value));
  return states && only.values.size >= MIN_TEXTS ? only.path : null;
}
const MIN_TEXTS = 8;

/** Minimum fractions of rows in which one field names the subject and the other the result. */
const NAMED = 0.8;
const UNNAMED = 0.75;
const HARDLY_ANY = 0.02;

/**
 * The field with `exposure 180 s Ha M 27`, `refocus, filter L` next to one with `good, file 0012.fits`, `done`, `done`:
 * results are sentences, too, and often more of them. For rows that state both ends.
 */
function besideResults(path: string, facts: readonly PathFacts[], records: number): string | null {
  const own = facts.find((one) => one.path === path);
  const isStated = ({ values }: PathFacts): boolean => [...values.keys()].some(isTime);
  // Begins and ends without times are identified by words.
  if (!facts.some((one) => one.count >= records / 2 && isStated(one))) return null;
  if (own === undefined || !(shareOf(own, namesSubject) < UNNAMED) || shareOf(own, begins) > HARDLY_ANY) return null;
  const named = facts.filter(
    (one) =>
      one !== own &&
      one.count >= NEARLY_ALL * records &&
      [...one.values.keys()].some((value) => /\d/.test(value) && /\s/.test(value)) &&
      shareOf(one, namesSubject) >= NAMED,
  );
  return named.length === 1 ? (named[0]?.path ?? null) : null;
}

/** Words about a begin are not a result. */
const begins = (text: string): boolean => courseOf(text).has('begins');

/** Number of rows with such a value in a field. */
function shareOf({ values, count }: PathFacts, isSuch: (value: string) => boolean): number {
  let rows = 0;
  for (const [value, own] of values) if (isSuch(value)) rows += own;
  return rows / Math.max(1, count);
}

const wordOrFileShare: Share = (one) => wordShare(one, (value) => isValue(value) && !NAMES_A_FILE.test(value));

/**
 * A field with sentences in nearly every record that are more informative than any adjacent field, which may also be
 * informative.
 */
function sayingMost(facts: readonly PathFacts[], records: number): string | null {
  const path = sentencePath(facts, NEARLY_ALL * records, wordOrFileShare);
  const own = facts.find((one) => one.path === path);
  if (own === undefined || saidOnAverage(own) < SAYS_BOTH) return null;
  return facts.every((one) => one === own || SAYS_MORE * saidOnAverage(one) <= saidOnAverage(own)) ? own.path : null;
}

/** A field that says what happened in nearly every record: its average evidence per row, and its coverage. */
const SAYS_BOTH = 1.4;
const SAYS_MORE = 1.5;
const NEARLY_ALL = 0.95;

/**
 * Whether another field says in few different words what happened in nearly every record: then this one holds remarks.
 */
function holdsRemarks(path: string, facts: readonly PathFacts[], records: number): boolean {
  const remarks = facts.find((one) => one.path === path);
  const said = remarks === undefined ? 0 : saidOnAverage(remarks);
  return facts.some(
    (one) =>
      one !== remarks &&
      one.count >= NEARLY_ALL * records &&
      one.values.size <= MAX_DISTINCT / 2 &&
      saidOnAverage(one) >= Math.max(SAYS_BOTH, SAYS_MORE * said),
  );
}

function saidOnAverage({ values, count }: PathFacts): number {
  const said = [...values].map(([value, rows]) => rows * saidBy(value));
  return said.reduce((sum, one) => sum + one, 0) / Math.max(1, count);
}

type Share = (facts: PathFacts) => number;

/** Such a field present in fewer records, if the adjacent fields do not say what happened. */
function rarerPath(
  facts: readonly PathFacts[],
  lines: readonly FieldLine[],
  share: Share,
  most: number,
): string | null {
  const path = sentencePath(facts, Math.max(MIN_SENTENCES, FEW * lines.length), share);
  if (path === null) return null;
  const own = lines.filter(({ fields }) => (fields.get(path) ?? '') !== '');
  const said = new Set(own.map(({ fields }) => fields.get(path)));
  const beside = new Set(
    own.map(({ fields }) =>
      [...fields]
        .filter(([other, value]) => other !== path && value !== '' && !isValue(value) && !/\d/.test(value))
        .map(([, value]) => value)
        .join('\0'),
    ),
  );
  return beside.size <= most * said.size ? path : null;
}

function sentencePath(facts: readonly PathFacts[], least: number, share: Share): string | null {
  const sentences = facts.filter(
    (one) =>
      one.count > least &&
      share(one) > 0.8 &&
      (one.values.size > MAX_DISTINCT || sentenceShare(one) > 0.5) &&
      [...one.values.keys()].some((value) => /\d/.test(value) && /\s/.test(value)),
  );
  return sentences.sort((a, b) => b.values.size - a.values.size)[0]?.path ?? null;
}

function sentenceShare({ values }: PathFacts): number {
  return [...values.keys()].filter((value) => value.split(/\s+/).length >= 3).length / Math.max(1, values.size);
}

/** Minimum fraction of a path's values that are words rather than domain values. */
export function wordShare({ values }: PathFacts, isNoWord = isValue): number {
  const words = [...values.keys()].filter((value) => !isNoWord(value) && /\p{L}/u.test(value)).length;
  return words / Math.max(1, values.size);
}

/** Whether a text is just a domain value and not a statement. */
export function isValue(text: string): boolean {
  return (
    isNumber(text) ||
    MEASURED.test(text) ||
    isSpan(text) ||
    isFilterName(text) ||
    YES_NO.test(text) ||
    (!isSentence(text) && (isFrameFile(text) || DESIGNATION.test(text) || TIME_LIKE.test(text)))
  );
}

/**
 * Numbers with units and nothing else: `5.5 0.2 px`, `-10 °C, 78 %`. Each character matches in one way only: otherwise
 * a long number followed by a letter would be tried in every split (catastrophic backtracking).
 */
const MEASURED = /^(?:[-+±]?\d+(?:\.\d+)*(?![.\d])(?:\s?(?:\p{L}{1,3}(?![\p{L}\d])|[%°"'′″]\p{L}?))?[\s,;/×]*)+$/u;

/** A value inside a sentence, `image saved as night_0012.fits`, does not make it a value. */
function isSentence(text: string): boolean {
  return text.split(/\s+/).filter((word, i) => (i === 0 ? FIRST_WORD : WORD).test(word)).length >= 2;
}

const WORD = /^\p{Ll}{2,}[.,:;]?$/u;
const FIRST_WORD = /^\p{L}\p{Ll}+[.,:;]?$/u;

/** One word before a bare file name: `saved night_0012.fits`. */
const NAMES_A_FILE = /^\p{L}{2,}\s?[:：]?\s+[^\s_-]+[_-]\S*$/u;
