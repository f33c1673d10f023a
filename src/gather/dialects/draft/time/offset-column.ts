import { readOffset } from '../../time/offsets.js';
import type { TimeCells } from './guess.js';
import { zoneAhead } from './same-instant.js';

type Row = ReadonlyMap<string, string>;

const MIN_ROWS = 8;
const MOST_MINUTES = 14 * 60;
const MOST_HOURS = 14;
const QUARTER = 15;
/** Names of columns that hold how far the clock is ahead of universal time. */
const NAME =
  /(?<!\p{L})(?:UTC?|GMT|TU|TZ)(?!\p{L})|time ?zone|^zone$|zeitzone|(?:utc|zone|tz|gmt) ?(?:offset|diff\p{L}*)|tidszon\p{L}*|tidssone|tidszone|tijdzone|fuso|fuseau|huso|strefa|pásmo|часовой пояс|часовий пояс|saat dilimi|aikavyöhyke|időzóna|時差|时差|时区|時區|시차|시간대/iu;
/** Universal time less that of the clock, in place of the other way around. */
const LESS = /(?<!\p{L})(?:UTC?|GMT|TU)\s?(?:[-–−]|minus|less|moins|menos|meno|mínus)\s?\p{L}/iu;
const SIGNED = /^(?:UTC?|GMT|TU)?\s?([+\-−])\s?(\d{1,2})(?::?([0-5]\d)|[.,](25|5|75|0))?(?:\s?h)?$/iu;
/** Of these, what no column of numbers holds. */
const CLEAR = /^[A-Z]{2,3}|:|^[+\-−]0\d{3}$/iu;
const BARE = /^(\d{1,3})(?::([0-5]\d)|[.,](25|5|75|0))?(?:\s?h)?$/iu;
const HAS_ZONE = /\{(?:offset|epoch|julian|mjd|elapsed)/;

/**
 * A time whose offset from universal time is in a column of its own: the zone, if every row states the same. Unchanged
 * if no column holds offsets, if they differ, or if the time has a zone.
 */
export function withOffsetColumn(cells: TimeCells | null, rows: readonly Row[]): TimeCells | null {
  if (cells === null || cells.stamp.zone !== undefined || HAS_ZONE.test(cells.stamp.pattern)) return cells;
  if (rows.length < MIN_ROWS) return cells;
  const paths = [...(rows[0]?.keys() ?? [])].filter((path) => !cells.paths.includes(path));
  const found = paths.flatMap((path) => offsetsIn(rows, path) ?? []);
  const minutes = new Set(found);
  const [only] = minutes;
  if (only === undefined || minutes.size > 1) return cells;
  return { ...cells, stamp: { ...cells.stamp, zone: only === 0 ? 'utc' : zoneAhead(only) } };
}

/** The only offset that a column holds, min; `null` if it holds others or anything else. */
function offsetsIn(rows: readonly Row[], path: string): number | null {
  const isNamed = NAME.test(path.replaceAll('_', ' '));
  const texts = new Set(rows.map((row) => row.get(path)?.trim() ?? ''));
  const [text] = texts;
  const minutes = texts.size === 1 && text !== undefined ? minutesOf(text, isNamed) : null;
  if (minutes === null) return null;
  return LESS.test(path) ? 0 - minutes : minutes;
}

/** @param isNamed whether the column's name says that its bare numbers are hours or minutes */
function minutesOf(text: string, isNamed: boolean): number | null {
  const [, sign = '+', whole, minutes = '0', part = '0'] =
    (isNamed || CLEAR.test(text) ? SIGNED.exec(text) : null) ?? (isNamed ? unsigned(text) : []);
  if (whole !== undefined) {
    const number = Number(whole);
    const all = number > MOST_HOURS ? number : number * 60 + Number(minutes) + Number(`0.${part}`) * 60;
    const isOffset = all <= MOST_MINUTES && all % QUARTER === 0;
    return isOffset ? (sign === '+' ? all : 0 - all) : null;
  }
  const bytes = Buffer.from(text);
  const word = /^\p{Lu}{3,4}$/u.test(text) || (isNamed && text === 'Z') ? readOffset(bytes, 0, bytes.length) : null;
  return word !== null && word.end === bytes.length ? word.minutes : null;
}

function unsigned(text: string): (string | undefined)[] {
  const [, whole, minutes, part] = BARE.exec(text) ?? [];
  return ['', '+', whole, minutes, part];
}
