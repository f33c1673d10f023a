import { underEvening } from '../../time/day-of-stamp.js';
import type { DateSource } from '../report.js';
import type { HeadLine } from './base-lines.js';
import type { StampGuess } from './guess.js';
import { timesOf } from './times-of.js';

const DAY_MS = 86_400_000;
const NOON_MS = DAY_MS / 2;
/** Maximum distance between rows of one night. */
const APART_MS = 8 * 3_600_000;
/** Minimum number of headings with a date: a single one is the evening's in any case. */
const MIN_HEADINGS = 2;

interface Timed {
  readonly line: number;
  readonly atMs: number;
}

/** Minimum number of rows after midnight with an unchanged date. */
const MIN_AFTER = 3;

/**
 * A stamp with evening dates, if the log shows it: at midnight the time goes back by hours, the date stays, and the
 * night continues from there; no date begins at midnight.
 */
export function underEvenings(stamp: StampGuess, texts: readonly { readonly text: string }[]): StampGuess {
  if (!/\{(?:day|serial-day)\}/.test(stamp.pattern) || (stamp.more?.length ?? 0) > 0) return stamp;
  const times = timesOf(stamp, texts);
  const evening = times.map(underEvening);
  const steps = (of: readonly number[]): number[] => of.slice(1).map((ms, i) => ms - (of[i] ?? NaN));
  const far = (of: readonly number[]): number => steps(of).filter((ms) => Math.abs(ms) > APART_MS).length;
  const after = times.filter((ms, i) => ms !== evening[i]);
  const isKept = steps(times).some((ms, i) => ms < -NOON_MS && isNear(evening, i) && isSameDay(times, i));
  const isNewDay = steps(times).some((ms, i) => ms >= 0 && ms < APART_MS && !isSameDay(times, i));
  return isKept && !isNewDay && after.length >= MIN_AFTER && far(evening) < far(times)
    ? { ...stamp, evening: true }
    : stamp;
}

/**
 * Heading dates as evening dates, if the log shows it: below some heading the night continues past midnight, and none
 * is in the middle of a night, as calendar dates are, at midnight or somewhat later; or the next heading repeats the
 * date.
 *
 * @param reading its unstamped lines, and those with an undated time
 */
export function headedByEvenings(
  source: DateSource,
  reading: {
    readonly loose: readonly HeadLine[];
    readonly messages: readonly Timed[];
    readonly fieldLines: readonly Timed[];
  },
): DateSource {
  if (source.from !== 'header' || source.evening) return source;
  const when = new RegExp(source.when, 'u');
  const dated = reading.loose.flatMap(({ text, number }) => {
    const date = when.exec(text)?.groups?.date;
    return date === undefined ? [] : [{ number, date }];
  });
  const headings = dated.map(({ number }) => number);
  if (headings.length < MIN_HEADINGS) return source;
  const timed = [...reading.messages, ...reading.fieldLines]
    .filter(({ atMs }) => !Number.isNaN(atMs))
    .sort((a, b) => a.line - b.line);
  const steps = timed.slice(1).map((to, i) => ({ from: timed[i] ?? to, to }));
  // Towards noon a night is over.
  const isOn = ({ from, to }: { readonly from: Timed; readonly to: Timed }): boolean =>
    (to.atMs - from.atMs + DAY_MS) % DAY_MS < APART_MS;
  const midnights = steps.filter(
    (step) => isOn(step) && step.from.atMs % DAY_MS >= NOON_MS && step.to.atMs % DAY_MS < NOON_MS,
  );
  const isPast = midnights.length > 0;
  // Page headings may repeat the date: after midnight it is then still that of the evening.
  const kept = midnights.flatMap(({ from, to }) => {
    const over = steps.find((step) => step.from.line >= to.line && !isOn(step))?.from.line ?? Infinity;
    // A heading at midnight itself states the new day, which a restart later in the night may repeat.
    const before = dated.findLast(({ number }) => number < from.line);
    const after = dated.find(({ number }) => number > from.line && number < over);
    return before === undefined || after === undefined ? [] : [before.date === after.date];
  });
  if (kept.length > 0 && kept.every(Boolean)) return { ...source, evening: true };
  const isAmidNight = steps.some(
    (step) => isOn(step) && headings.some((number) => number > step.from.line && number < step.to.line),
  );
  return isPast && !isAmidNight ? { ...source, evening: true } : source;
}

const isSameDay = (times: readonly number[], i: number): boolean =>
  Math.floor((times[i] ?? NaN) / DAY_MS) === Math.floor((times[i + 1] ?? NaN) / DAY_MS);

const isNear = (times: readonly number[], i: number): boolean =>
  Math.abs((times[i + 1] ?? NaN) - (times[i] ?? NaN)) < APART_MS;
