import { increment } from '../../../../model/index.js';
import { pathsOf, type FieldLine } from '../kinds/field-line.js';
import { isFilterName, isFrameFile, isNumber } from '../kinds/values.js';
import { plainWords } from '../lexicon/plain-words.js';
import { saysSaved } from '../lexicon/said.js';
import { wordEvidence } from '../lexicon/word-evidence.js';
import { followingOf, lengthColumn, type LengthColumn, type Rows } from './lengths.js';
import { isMiddle, sideOfTitle } from '../lexicon/sides.js';
import { sideOf } from './side.js';

const MIN_ROWS = 8;
/** Rows with their own file name, and rows with a filter if there are no files. */
const FILES = 0.7;
const DIFFERENT = 0.95;
const FILTERS = 0.9;
/** A column filled in fewer rows holds remarks; maximum fraction of rows about other things, in any other column. */
const REMARKS = 0.4;
const ELSEWHERE = 0.05;
const SAYS = 1.5;
/** Number of words for the edges of exposures, and the fraction of rows with each of these. */
const MOST_EDGES = 6;
const EDGES = 0.3;
const OF_EXPOSURES = /^(?:exposure|frame-saved|dither-ready)/;
/** Maximum number of trains, and minimum rows per train. */
const MOST_TRAINS = 4;
const SHARE = 0.08;
const OVERLAP = 0.05;
const NEARLY_ALL = 0.9;
/** Maximum distance of an exposure's other end from the row's own time, ms. */
const SHORTEST_MS = 800;
const LONGEST_MS = 7_200_000;
const SLACK_MS = 1600;
const NAMED_SLACK_MS = 5000;
/** Number of different lengths that cover most exposures of a night, and the minimum length of some of them, s. */
const MOST_LENGTHS = 4;
const ASKED = 0.7;
const SAME_S = 2;
const LONG_S = 20;

/** What distinguishes the rows of several trains: a column, or the beginnings of the file names. */
export interface TrainColumn {
  readonly path: string;
  readonly isPrefix: boolean;
}

/** A table in which every row is an exposure, and its columns. */
export interface ExposureTable {
  readonly rows: readonly FieldLine[];
  readonly file: string | null;
  readonly train: TrainColumn | null;
  readonly length: LengthColumn | null;
  /** The column with the other end. */
  readonly other: string | null;
  /** Which end the rows' own times are; `null` if undetermined. */
  readonly side: 'begin' | 'end' | null;
  /** They are those of the middle of each exposure, and `side` is that of the beginning. */
  readonly isMid: boolean;
}

/** The columns of a table with one exposure per row; `null` if rows are also about other things. */
export function exposureTable(lines: readonly FieldLine[], timePaths: readonly string[]): ExposureTable | null {
  const rows = lines.filter(({ atMs }) => !Number.isNaN(atMs));
  if (rows.length < MIN_ROWS || rows.length < NEARLY_ALL * lines.length) return null;
  const paths = pathsOf(rows.slice(0, 500), timePaths);
  const filledIn = (path: string): string[] => rows.flatMap(({ fields }) => fields.get(path) || []);
  const file = paths.find((path) => namesFiles(filledIn(path), rows.length)) ?? null;
  const filter = paths.find((path) => filledIn(path).filter(isFilterName).length >= FILTERS * rows.length);
  if (file === null && filter === undefined) return null;
  const words = paths.filter((path) => path !== file && path !== filter);
  if (words.some((path) => tellsOthers(filledIn(path), rows.length) || tellsEdges(filledIn(path), rows.length)))
    return null;
  const divided = trainColumns(words, file, rows);
  for (const train of [null, ...divided]) {
    const own: Rows = { lines: rows, trainOf: (line) => nameOf(line, train) };
    const length = lengthColumn(own, paths);
    const other = otherEnd(own, paths, length);
    const seconds = length?.seconds ?? other?.seconds;
    if (seconds === undefined || (file === null && !(length?.isNamed ?? true))) continue;
    // Rows with a filter and no file may be about its wheel, or about focusing through it.
    if (file === null && !areAsked(seconds)) continue;
    const isMid = other === null && length !== null && isMiddle(timePaths);
    const title = isMid ? 'begin' : sideOfTitle(timePaths);
    const isEnd = other === null ? null : other.isAhead;
    const side = isEnd === null ? (title ?? sideOf(own, seconds)) : isEnd ? 'begin' : 'end';
    return { rows, file, train, length, other: other?.path ?? null, side, isMid };
  }
  return null;
}

/** The name of the train in a row. */
export function nameOf({ fields }: FieldLine, train: TrainColumn | null): string {
  const text = train === null ? '' : (fields.get(train.path) ?? '');
  return train?.isPrefix === true ? prefixOf(text) : text;
}

function prefixOf(file: string): string {
  return /^[\p{L}\d]*\p{L}/u.exec(file.split(/[\\/]/).at(-1) ?? '')?.[0] ?? '';
}

function namesFiles(values: readonly string[], rows: number): boolean {
  const files = values.filter(isFrameFile);
  return files.length >= FILES * rows && new Set(files).size >= DIFFERENT * files.length;
}

/** Whether most rows have one of a few lengths: the requested ones. */
function areAsked(seconds: readonly number[]): boolean {
  const known = seconds.filter((one) => !Number.isNaN(one)).sort((a, b) => a - b);
  const counts: number[] = [];
  let first = NaN;
  for (const one of known) {
    if (!(one - first <= SAME_S)) {
      counts.push(0);
      first = one;
    }
    counts[counts.length - 1] = (counts.at(-1) ?? 0) + 1;
  }
  const most = counts.sort((a, b) => b - a).slice(0, MOST_LENGTHS);
  return most.reduce((sum, count) => sum + count, 0) >= ASKED * known.length && known.some((one) => one >= LONG_S);
}

/** Whether the words of a column are about something other than exposures. */
function tellsOthers(values: readonly string[], rows: number): boolean {
  if (values.length < REMARKS * rows) return false;
  const counts = new Map<string, number>();
  for (const value of values) increment(counts, value);
  if (counts.size < 2 || counts.size > 0.5 * rows) return false;
  let others = 0;
  for (const [value, count] of counts) {
    if (isNumber(value)) continue;
    const likeliest = [...wordEvidence(value)].sort((a, b) => b[1] - a[1])[0];
    if (likeliest !== undefined && likeliest[1] >= SAYS && !OF_EXPOSURES.test(likeliest[0])) others += count;
  }
  return others > ELSEWHERE * rows;
}

/** Whether the words of a column open the shutter in some rows and close it in others: an exposure has two. */
function tellsEdges(values: readonly string[], rows: number): boolean {
  const counts = new Map<string, number>();
  for (const value of values) increment(counts, value);
  if (values.length < NEARLY_ALL * rows || counts.size < 2 || counts.size > MOST_EDGES) return false;
  const rowsOf = (events: RegExp): number =>
    [...counts].reduce((sum, [value, count]) => {
      const [best] = [...wordEvidence(`shutter ${value}`)].sort((a, b) => b[1] - a[1]);
      return best !== undefined && best[1] >= SAYS && events.test(best[0]) ? sum + count : sum;
    }, 0);
  return rowsOf(/^exposure-begin$/) >= EDGES * rows && rowsOf(/^exposure-(?:end|abort)$/) >= EDGES * rows;
}

/** Candidates for distinguishing trains: columns with few names, beginnings of file names. */
function trainColumns(paths: readonly string[], file: string | null, rows: readonly FieldLine[]): TrainColumn[] {
  const columns = [
    ...paths.map((path): TrainColumn => ({ path, isPrefix: false })),
    ...(file === null ? [] : [{ path: file, isPrefix: true }]),
  ];
  return columns.filter((column) => {
    const counts = new Map<string, number>();
    for (const row of rows) increment(counts, nameOf(row, column));
    // Discarded files have no name.
    const names = [...counts].filter(
      ([name, count]) => !column.isPrefix || (name !== '' && count >= SHARE * rows.length),
    );
    const covered = names.reduce((sum, [, count]) => sum + count, 0);
    return (
      names.length >= 2 &&
      names.length <= MOST_TRAINS &&
      names.every(([name, count]) => /\p{L}/u.test(name) && count >= SHARE * rows.length) &&
      covered >= NEARLY_ALL * rows.length
    );
  });
}

/** The column with the times of the other ends, and whether these are later than the rows' own. */
function otherEnd(
  rows: Rows,
  paths: readonly string[],
  length: LengthColumn | null,
): { readonly path: string; readonly isAhead: boolean; readonly seconds: readonly number[] } | null {
  for (const path of paths) {
    const away = rows.lines.map(({ atMs, timesMs }) => (timesMs?.get(path) ?? NaN) - atMs);
    const known = away.filter((ms) => !Number.isNaN(ms));
    if (known.length < NEARLY_ALL * rows.lines.length) continue;
    const isAhead = known.filter((ms) => ms > 0).length >= NEARLY_ALL * known.length;
    const isBehind = known.filter((ms) => ms < 0).length >= NEARLY_ALL * known.length;
    if (!isAhead && !isBehind) continue;
    const inRange = known.filter((ms) => Math.abs(ms) >= SHORTEST_MS && Math.abs(ms) <= LONGEST_MS);
    if (inRange.length < NEARLY_ALL * known.length) continue;
    const isNamed = sideOfTitle([path]) === (isAhead ? 'end' : 'begin');
    const agrees = away.filter((ms, i) => {
      const moreMs = Math.abs(ms) - (length?.seconds[i] ?? NaN) * 1000;
      // A column named as the end is one even if exposures were aborted or took a moment longer.
      return isNamed ? moreMs <= NAMED_SLACK_MS : Math.abs(moreMs) <= SLACK_MS;
    });
    // A file is saved after its exposure is over, not at its end.
    if (saysSaved(plainWords(path)) || (length !== null && agrees.length < NEARLY_ALL * known.length)) continue;
    const seconds = away.map((ms) => Math.abs(ms) / 1000);
    const { overlap } = followingOf(rows, seconds, isAhead ? 'begin' : 'end');
    if (overlap <= OVERLAP) return { path, isAhead, seconds };
  }
  return null;
}
