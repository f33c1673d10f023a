import { newStamp, StampPattern } from '../../time/stamp.js';
import { readOffset } from '../../time/offsets.js';
import type { StampGuess, TimeCells } from './guess.js';

type Cells = ReadonlyMap<string, string>;

/** Minimum fraction of rows that have the field. */
const NEARLY_ALL = 0.98;
const MIN_ROWS = 20;
const HOUR_MINUTES = 60;
const MOST_HOURS = 14;
/** The zone in a form that nothing else has: `+02:00`, `+0200`, `CEST`. */
const PLAIN = /^[+\-−]\d{2}:\d{2}$|^[+\-−]0\d00$|^[A-Z]{3,4}$/;
const SIGNED = /^[+\-−]\d{1,2}(?::?\d{2})?$|^[A-Z]{3,4}$/;
const NAMED = /(?<!\p{L})(?:tz|zone|utc|gmt|offset|dst|zona|fuseau|zeitzone|fuso|tijdzone)(?!\p{L})/iu;
const IN_ONE = /\{offset\}|\{epoch|\{julian|\{mjd|\{elapsed/;

/**
 * The time with the field beside it that states how far its clock is ahead of universal time: in a form that nothing
 * else has, in a field named after it, or as a number that changes by an hour just where the clock is set back or
 * forward. Unchanged without such a field.
 */
export function withOffsetField(cells: TimeCells | null, all: readonly Cells[]): TimeCells | null {
  if (cells === null || cells.isFirst) return cells;
  const { stamp, paths } = cells;
  const rows = all.filter((row) => paths.every((path) => row.has(path)));
  if (rows.length < MIN_ROWS) return cells;
  if (IN_ONE.test(stamp.pattern) || stamp.more !== undefined || stamp.at === 'anywhere') return cells;
  const names = [...new Set(rows.flatMap((row) => [...row.keys()]))].filter((name) => !paths.includes(name));
  const field = names.find((name) => statesOffset(rows, name, cells));
  if (field === undefined) return cells;
  return { ...cells, paths: [...paths, field], stamp: { ...stamp, pattern: `${stamp.pattern} {offset}` } };
}

function statesOffset(rows: readonly Cells[], name: string, { paths, stamp }: TimeCells): boolean {
  const own = rows.filter((row) => row.has(name));
  if (own.length < NEARLY_ALL * rows.length) return false;
  const values = own.map((row) => row.get(name)?.trim() ?? '');
  const minutes = new Map([...new Set(values)].map((value) => [value, minutesOf(value)] as const));
  if (minutes.size > 2 || [...minutes.values()].some((one) => Number.isNaN(one))) return false;
  const [first = NaN, second] = [...minutes.values()];
  if (second === undefined) return PLAIN.test(values[0] ?? '') || NAMED.test(name);
  if (Math.abs(first - second) !== HOUR_MINUTES) return false;
  const changes = values.flatMap((value, i) => (i > 0 && value !== values[i - 1] ? [i] : []));
  const [at = 0] = changes;
  const timeOf = (i: number): number => msOf(stamp, paths.map((path) => own[i]?.get(path) ?? '').join(' '));
  const stepMs = timeOf(at) - timeOf(at - 1);
  return changes.length === 1 && (second < first ? stepMs < 0 : stepMs >= HOUR_MINUTES * 60_000);
}

/** Minutes ahead of universal time, NaN if the text does not state them. */
function minutesOf(text: string): number {
  if (!SIGNED.test(text)) return NaN;
  const bytes = Buffer.from(text);
  const offset = readOffset(bytes, 0, bytes.length);
  const isWhole = offset !== null && offset.end === bytes.length && Math.abs(offset.minutes) <= MOST_HOURS * 60;
  return isWhole ? offset.minutes : NaN;
}

function msOf({ pattern }: StampGuess, text: string): number {
  const bytes = Buffer.from(text);
  const stamp = newStamp();
  return new StampPattern(pattern).readAt(bytes, 0, bytes.length, stamp) ? stamp.ms : NaN;
}
