import { newStamp, StampPattern } from '../../time/stamp.js';
import { escapeBraces, increment } from './counting.js';
import type { StampGuess } from './guess.js';

/** Minimum fraction of stamped lines with a second clock directly after the stamp. */
const SHARE = 0.95;
const MIN_LINES = 5;
/** Maximum deviation of two clocks of the same instant over the whole log, s. */
const STEADY_S = 2.1;
/** A bad clock gains less than this in a night, s. */
const MOST_DRIFT_S = 60;
/** Sidereal time gains a day in a tropical year (IAU), and a share within which a gain is as large. */
const SIDEREAL_GAIN = 1 / 365.2422;
const ALIKE = 0.15;
const DAY_S = 86_400;
const HALF_HOUR_S = 1800;
/** Sidereal seconds in a second of time (IAU 2006: 86,636.555 in a day). */
const SIDEREAL = 1.002_737_909;
/** Minimum duration of a log to distinguish the two rates, s. */
const DISTINGUISHABLE_S = 1800;
/** A clock this soon after midnight on the first line counts from the start of the program. */
const STARTED_S = 3600;

const SECOND = String.raw`(?<marks>[\s[({<|,;/~·-]{1,4}(?:(?:LS?T|LMST|GMST|ST)\s?[:=]?\s?)?)(?<clock>\d{1,3}:\d{2}:\d{2}(?:[.,]\d+)?)(?<tail>\s?(?:Z|UTC?|GMT)(?![\p{L}\d])|)(?<close>[\])}>]?)(?=\s)`;
const BEHIND = new RegExp(`^${SECOND}`, 'u');

/**
 * Lines that state the same instant on two clocks, `21:07:41 (00:00:12)`: the time of day is the stamp, and the other,
 * whether elapsed or sidereal, belongs to it. Unchanged if lines have one clock, or if the second is of another
 * instant.
 */
export function withoutSecondClock(guess: StampGuess, lines: readonly string[]): StampGuess {
  if (guess.at !== 'start' || !guess.pattern.includes('{second}')) return guess;
  const pattern = new StampPattern(guess.pattern);
  const stamp = newStamp();
  const forms = new Map<string, number>();
  const pairs: TwoClocks[] = [];
  let read = 0;
  for (const line of lines) {
    const bytes = Buffer.from(line.slice(0, 400));
    if (!pattern.readAt(bytes, 0, bytes.length, stamp)) continue;
    read++;
    const groups = BEHIND.exec(bytes.subarray(stamp.end).toString('utf8'))?.groups;
    if (groups?.clock === undefined) continue;
    increment(forms, `${groups.marks}\0${groups.tail}${groups.close}`);
    pairs.push({ own: stamp.ms / 1000, other: secondsIn(groups.clock) });
  }
  const [form, count] = [...forms].sort((a, b) => b[1] - a[1])[0] ?? ['', 0];
  const [first] = pairs;
  if (first === undefined || count < MIN_LINES || count < SHARE * read) return guess;
  const pace = [1, SIDEREAL, 1 / SIDEREAL].find((one) => areSteady(pairs, one));
  if (pace === undefined) return guess;
  const [marks = '', tail = ''] = form.split('\0');
  const hasDate = pattern.kind !== 'time';
  // The slower of two is the time of day, the other is sidereal time.
  const isOther = pace === 1 ? first.own % DAY_S < STARTED_S && first.other % DAY_S >= STARTED_S : pace < 1;
  return !hasDate && isOther
    ? { ...guess, pattern: `{skip}${escapeBraces(marks)}{hour}:{minute}:{second}${offsetOf(tail)}` }
    : {
        ...guess,
        pattern: `${guess.pattern}${marksText(marks)}{skip}${/^\s/.test(tail) ? ' {skip}' : ''}`,
        ...(/Z|UT|GMT/.test(tail) && pace === 1 ? { zone: zoneBeside(pairs) } : {}),
      };
}

/** The zone of the first clock if the second is in UTC: the site's if the difference changes. */
function zoneBeside(pairs: readonly TwoClocks[]): string {
  const halves = pairs.map(({ own, other }) => Math.round((own - other) / HALF_HOUR_S));
  const hours = new Set(halves.map((half) => ((((half + 24) % 48) + 48) % 48) - 24));
  const [half = 0] = hours;
  if (hours.size > 1) return 'site';
  return half === 0 ? 'utc' : zoneAhead(half * 30);
}

/** A zone that is this many minutes ahead of UTC. */
export function zoneAhead(minutes: number): string {
  const two = (value: number): string => String(Math.floor(value)).padStart(2, '0');
  return `${minutes < 0 ? '-' : '+'}${two(Math.abs(minutes) / 60)}:${two(Math.abs(minutes) % 60)}`;
}

/** Separators between two clocks, if distinct from both. */
function marksText(marks: string): string {
  if (/^\s\S+\s$/.test(marks)) return escapeBraces(marks);
  return /\s/.test(marks) ? ' ' : '';
}

function offsetOf(tail: string): string {
  const [, blank = '', zone, rest = ''] = /^(\s?)(Z|UTC?|GMT)?(.*)$/.exec(tail) ?? [];
  return `${zone === undefined ? '' : `${blank}${zone === 'UT' ? zone : '{offset}'}`}${escapeBraces(rest)}`;
}

function secondsIn(clock: string): number {
  return clock.split(':').reduce((sum, part) => sum * 60 + Number(part.replace(',', '.')), 0);
}

interface TwoClocks {
  readonly own: number;
  readonly other: number;
}

/** Whether the second clock runs at this rate relative to the first, ignoring midnights. */
function areSteady(pairs: readonly TwoClocks[], pace: number): boolean {
  const [first] = pairs;
  if (first === undefined) return false;
  if (pace !== 1 && sinceFirst(first, pairs.at(-1) ?? first) < DISTINGUISHABLE_S) return false;
  const steps = new Set(pairs.map(({ own }) => Math.round(own)));
  const steady = pairs.filter((pair) => {
    // The difference between clocks of two zones changes by an hour at the end of summer time.
    const turn = pace === 1 ? HALF_HOUR_S : DAY_S;
    const away = (((sinceFirst(first, pair) * pace - (pair.other - first.other)) % turn) + turn) % turn;
    return Math.min(away, turn - away) <= STEADY_S;
  });
  if (steps.size < MIN_LINES) return false;
  return steady.length >= SHARE * pairs.length || (pace === 1 && goApartSlowly(pairs));
}

/** Whether one clock gains on the other by so little that it shows from line to line nowhere. */
function goApartSlowly(pairs: readonly TwoClocks[]): boolean {
  const off = pairs.map(({ own, other }) => {
    const away = other - own;
    return away - Math.round(away / HALF_HOUR_S) * HALF_HOUR_S;
  });
  const steps = off.slice(1).map((own, i) => Math.abs(own - (off[i] ?? NaN)));
  const isSmall = steps.filter((step) => step <= STEADY_S).length >= SHARE * steps.length;
  return isSmall && Math.max(...off) - Math.min(...off) <= MOST_DRIFT_S && !isSidereal(pairs, off);
}

/** Seconds on the first clock, continued past midnight. */
function sinceFirst(first: TwoClocks, { own }: TwoClocks): number {
  return (((own - first.own) % DAY_S) + DAY_S) % DAY_S;
}

/** Whether one clock gains on the other as sidereal time does: it is another time, not a bad clock. */
function isSidereal(pairs: readonly TwoClocks[], off: readonly number[]): boolean {
  const [first, last] = [pairs[0], pairs.at(-1)];
  if (first === undefined || last === undefined) return false;
  const tookS = sinceFirst(first, last);
  const gainedS = Math.abs((off.at(-1) ?? NaN) - (off[0] ?? NaN));
  return Math.abs(gainedS - SIDEREAL_GAIN * tookS) < ALIKE * gainedS;
}
