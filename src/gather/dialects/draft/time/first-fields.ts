import { newStamp, StampPattern } from '../../time/stamp.js';
import { stampsIn } from './stamp-shapes.js';
import { isWeekday } from './weekdays.js';

/** Minimum fraction of records that the chosen fields give a time. */
const COVERED = 0.97;
/** Maximum number of fields in a dialect. */
const MOST_FIELDS = 10;
const HALF_DAY_MS = 43_200_000;

/** A time without the day of the week before its date. */
function withoutWeekday(value: string): string {
  const [whole = '', day = ''] = /^(\p{L}{1,20})[.,]{0,2}\s+(?=\d)/u.exec(value) ?? [];
  return day !== '' && isWeekday(day) ? value.slice(whole.length) : value;
}

/** Whether a value is just a time, with or without the day of the week. */
export function isTime(value: string): boolean {
  const text = withoutWeekday(value);
  return stampsIn(text).some(
    ({ pattern, start, end }) =>
      start === 0 && end === text.length && /\{(?:night-)?hour|\{epoch|\{julian|\{mjd/.test(pattern),
  );
}

/** The first of the fields that a record has. */
export function firstOf(fields: ReadonlyMap<string, string>, paths: readonly string[]): string | undefined {
  return paths.map((path) => fields.get(path)).find((value) => value !== undefined);
}

/**
 * The fields that state begins, the smallest set that gives nearly every record a time: of two in a record the earlier.
 *
 * @param covered fraction of the records that they time
 */
export function firstFields(times: readonly ReadonlyMap<string, string>[], covered = COVERED): string[] {
  const counts = new Map<string, number>();
  const later = new Map<string, number>();
  for (const own of times) {
    const read = [...own].map(([path, value]) => ({ path, ms: msOf(value) }));
    const earliest = Math.min(...read.map(({ ms }) => ms));
    for (const { path, ms } of read) {
      counts.set(path, (counts.get(path) ?? 0) + 1);
      // A difference of half a day or more is a step across midnight: the smaller time of day is then the later one.
      if (ms > earliest && ms - earliest < HALF_DAY_MS) later.set(path, (later.get(path) ?? 0) + 1);
    }
  }
  const early = [...counts].sort(
    ([a, countA], [b, countB]) => (later.get(a) ?? 0) / countA - (later.get(b) ?? 0) / countB || countB - countA,
  );
  const chosen: string[] = [];
  let left = times.filter(({ size }) => size > 0);
  const enough = (1 - covered) * left.length;
  for (const [path] of early) {
    if (left.length <= enough || chosen.length >= MOST_FIELDS) break;
    const rest = left.filter((own) => !own.has(path));
    if (rest.length < left.length) chosen.push(path);
    left = rest;
  }
  return needed(chosen, times);
}

/** Minimum fraction of records with a field, if it can be dropped because others time these records as well. */
const RARE = 0.3;

/** A further time in few rows, such as that of a request, is not their time. */
function needed(chosen: readonly string[], times: readonly ReadonlyMap<string, string>[]): string[] {
  return chosen.filter((path) => {
    const own = times.filter((one) => one.has(path));
    const others = chosen.filter((one) => one !== path);
    return own.length > RARE * times.length || !own.every((one) => others.some((other) => one.has(other)));
  });
}

function msOf(value: string): number {
  const text = withoutWeekday(value);
  const [found] = stampsIn(text).filter(({ start, pattern }) => start === 0 && !/\{[abc]\}/.test(pattern));
  if (found === undefined) return NaN;
  const bytes = Buffer.from(text);
  const stamp = newStamp();
  return patternOf(found.pattern).readAt(bytes, 0, bytes.length, stamp) ? stamp.ms : NaN;
}

/** The times of a log have few forms, and each is compiled once. */
const MOST_KEPT = 100;
const kept = new Map<string, StampPattern>();

function patternOf(source: string): StampPattern {
  const known = kept.get(source);
  if (known !== undefined) return known;
  if (kept.size >= MOST_KEPT) kept.clear();
  const pattern = new StampPattern(source);
  kept.set(source, pattern);
  return pattern;
}
