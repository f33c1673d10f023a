import { saysPlanned } from '../../lexicon/sides.js';
import { isTime } from '../first-fields.js';

const MIN_ROWS = 20;
const NEARLY_ALL = 0.95;
const DAY_S = 86_400;
/** A sidereal second in seconds of time (IAU 2006: 86,636.555 sidereal seconds in a day). */
const SIDEREAL = 1.002_737_909;
/** Deviation of two clocks of one instant, s. */
const STEADY_S = 2.1;
/** A span of constant length ends sooner than a clock of another zone is away, s. */
const APART_S = 1500;
/** Minimum duration of a log to distinguish the two rates, s. */
const LONG_S = 3600;
/** Deviation of a clock of whole minutes from one of seconds, s. */
const MINUTE_S = 60;
const CLOCK = /^(?:\d{1,4}d\s?)?(\d{1,3}):(\d{2})(?::(\d{2}(?:[.,]\d+)?))?$/;

/** A row with its own time, ms. */
interface Timed {
  readonly fields: ReadonlyMap<string, string>;
  readonly atMs: number;
}

/**
 * The fields that hold a second clock of the rows' own instants, sidereal or of another zone, or since the program
 * began: it runs at a constant rate beside the first, so that it says nothing of when an event began or ended.
 *
 * @param own the fields with the rows' own times
 */
export function clocksBeside(rows: readonly Timed[], own: readonly string[]): string[] {
  const timed = rows.filter(({ atMs }) => !Number.isNaN(atMs));
  const paths = new Set(timed.slice(0, MIN_ROWS).flatMap(({ fields }) => [...fields.keys()]));
  return [...paths].filter((path) => {
    if (own.includes(path)) return false;
    const pairs = timed.flatMap(({ fields, atMs }) => {
      const other = secondsIn(fields.get(path) ?? '');
      return other === null ? [] : [{ own: atMs / 1000, other: other.seconds, isCoarse: other.isCoarse }];
    });
    return pairs.length >= Math.max(MIN_ROWS, NEARLY_ALL * timed.length) && areOneInstant(pairs);
  });
}

/** The fields with times for which something was planned, beside those at which it happened. */
export function timesPlanned(rows: readonly Timed[], own: readonly string[]): string[] {
  const paths = new Set(rows.flatMap(({ fields }) => [...fields.keys()]));
  return [...paths].filter((path) => {
    if (own.includes(path) || own.length === 0 || !saysPlanned(path)) return false;
    return rows.every(({ fields }) => isTime(fields.get(path) ?? '00:00'));
  });
}

interface TwoClocks {
  readonly own: number;
  readonly other: number;
  /** Whether the other tells no seconds. */
  readonly isCoarse: boolean;
}

function areOneInstant(pairs: readonly TwoClocks[]): boolean {
  const [first] = pairs;
  if (first === undefined) return false;
  const span = Math.max(...pairs.map(({ own }) => Math.abs(own - first.own)));
  if (span < LONG_S || turned(first.other - first.own) < APART_S) return false;
  return [1, SIDEREAL].some((pace) => {
    const steady = pairs.filter(
      ({ own, other, isCoarse }) =>
        turned((own - first.own) * pace - (other - first.other)) <= STEADY_S + (isCoarse ? MINUTE_S : 0),
    );
    return steady.length >= NEARLY_ALL * pairs.length;
  });
}

/** A difference of times of day in seconds, whatever the day. */
function turned(seconds: number): number {
  const away = ((seconds % DAY_S) + DAY_S) % DAY_S;
  return Math.min(away, DAY_S - away);
}

function secondsIn(text: string): { readonly seconds: number; readonly isCoarse: boolean } | null {
  const [, hours, minutes, seconds] = CLOCK.exec(text.trim()) ?? [];
  if (hours === undefined) return null;
  return {
    seconds: Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds?.replace(',', '.') ?? 0),
    isCoarse: seconds === undefined,
  };
}
