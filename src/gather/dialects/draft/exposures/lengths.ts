import { groupBy } from '../../../../model/index.js';
import { tookUnit } from '../group-names.js';
import type { FieldLine } from '../kinds/field-line.js';
import type { Slot } from '../kinds/kind.js';
import { numberIn, typeOf } from '../kinds/values.js';
import { plainWords } from '../lexicon/plain-words.js';
import { wordList } from '../lexicon/word-list.js';

/** Hours, minutes and seconds, or minutes and seconds, that something took. */
const CLOCK = /^(?:(\d{1,2}):)?(\d{1,3}):(\d{2}(?:[.,]\d+)?)$/;
const FILLED = 0.95;
const LONGEST_S = 7200;
/** Rows distinguished only by one column: it states their duration. */
const NEAR_S = 45;
const SLACK_S = 1.6;
/**
 * Maximum fraction of overlapping rows; and minimum fraction of consecutive rows, if no unit says that a column holds
 * lengths.
 */
const OVERLAP = 0.05;
const FOLLOW = 0.3;
const UNNAMED = { overlap: 0.02, follow: 0.4 } as const;
/** Two columns hold the requested and the actual value. */
const CLOSE = 0.8;
const WAITS = wordList(
  `wait* wart* attent* atend* esper* czek* wach* gewacht cek* varak* odot* vant* vent* pause* gap idle pauza rust
     待機 待ち 等待 대기`,
);

/** A column that states the length of each row's exposure. */
export interface LengthColumn {
  readonly path: string;
  /** Seconds by row; NaN if not stated. */
  readonly seconds: readonly number[];
  /** Its title contains a unit, or names a length. */
  readonly isNamed: boolean;
  /** Its values are clock values in minutes and seconds. */
  readonly isClock: boolean;
}

/** Rows with their own times, and a partition under which no exposures of one train overlap. */
export interface Rows {
  readonly lines: readonly FieldLine[];
  readonly trainOf: (line: FieldLine) => string;
}

/** How the rows of each train follow one another, if their times are begins, or ends. */
export interface Following {
  /** Fractions of steps in which exposures overlap, and in which one directly follows the other. */
  readonly overlap: number;
  readonly follow: number;
}

/** How rows with these lengths fit together. @param side which end their times are */
export function followingOf({ lines, trainOf }: Rows, seconds: readonly number[], side: 'begin' | 'end'): Following {
  const timed = lines
    .map((line, i) => ({ line, atMs: line.atMs, seconds: seconds[i] ?? NaN }))
    .filter((row) => !Number.isNaN(row.seconds));
  const trains = groupBy(timed, ({ line }) => trainOf(line));
  let steps = 0;
  let overlap = 0;
  let follow = 0;
  for (const rows of trains.values()) {
    const sorted = [...rows].sort((a, b) => a.atMs - b.atMs);
    sorted.forEach((row, i) => {
      const next = sorted[i + 1];
      if (next === undefined) return;
      const rest = (next.atMs - row.atMs) / 1000 - (side === 'begin' ? row.seconds : next.seconds);
      steps++;
      if (rest < -SLACK_S) overlap++;
      else if (rest <= NEAR_S) follow++;
    });
  }
  return { overlap: overlap / Math.max(1, steps), follow: follow / Math.max(1, steps) };
}

/** The column that states each row's length, `null` if there is none. */
export function lengthColumn(rows: Rows, paths: readonly string[]): LengthColumn | null {
  const found = paths.flatMap((path) => {
    const column = columnOf(rows.lines, path);
    if (column === null || WAITS.test(plainWords(path))) return [];
    const sides = (['begin', 'end'] as const).map((side) => followingOf(rows, column.seconds, side));
    const most = column.isNamed ? { overlap: OVERLAP, follow: FOLLOW } : UNNAMED;
    const [best] = sides.filter(({ overlap, follow }) => overlap <= most.overlap && follow >= most.follow);
    return best === undefined ? [] : [{ column, follow: best.follow }];
  });
  const [first, ...others] = found.sort(
    (a, b) => Number(b.column.isNamed) - Number(a.column.isNamed) || b.follow - a.follow,
  );
  if (first === undefined) return null;
  // Next to the requested length is the actual one: shorter where an exposure was aborted.
  const actual = others.find(({ column }) => isCut(column.seconds, first.column.seconds));
  return (actual ?? first).column;
}

function columnOf(lines: readonly FieldLine[], path: string): LengthColumn | null {
  const texts = lines.map(({ fields }) => fields.get(path) ?? '');
  if (lines.some(({ timesMs }) => timesMs?.has(path))) return null;
  const filled = texts.filter((text) => text !== '');
  if (filled.length < FILLED * lines.length) return null;
  const isClock = filled.every((text) => CLOCK.test(text));
  const values = [...new Set(isClock ? filled.map(inUnits) : filled)].slice(0, 60);
  if (!isClock && typeOf(values) !== 'number') return null;
  const slot: Slot = {
    path,
    before: plainWords(path).split(' ').reverse(),
    after: '',
    type: 'number',
    values,
    perLine: [],
  };
  const unit = isClock ? 1 : tookUnit(slot);
  const seconds = texts.map((text) => numberIn(isClock ? inUnits(text) : text) * (unit ?? 1));
  const known = seconds.filter((one) => !Number.isNaN(one));
  if (!known.every((one) => one >= 0 && one <= LONGEST_S) || !known.some((one) => one >= 1)) return null;
  return { path, seconds, isNamed: unit !== null, isClock };
}

/** A clock value as a length with units, in minutes: with hours it would be a time of day. `3:00` is `3m00s`. */
export function inUnits(text: string): string {
  return text.replace(
    CLOCK,
    (_, hours: string | undefined, minutes: string, seconds: string) =>
      `${Number(hours ?? 0) * 60 + Number(minutes)}m${seconds}s`,
  );
}

function isCut(actual: readonly number[], asked: readonly number[]): boolean {
  const close = actual.filter((one, i) => Math.abs(one - (asked[i] ?? NaN)) < 2 + 0.02 * one).length;
  const less = actual.filter((one, i) => one < 0.95 * (asked[i] ?? NaN)).length;
  return close >= CLOSE * actual.length && less > 0 && close + less >= FILLED * actual.length;
}
