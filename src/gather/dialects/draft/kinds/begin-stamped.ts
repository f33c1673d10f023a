import { isOfSeconds, lengthMs } from '../lengths.js';
import { partitionPoint } from '../../../../model/index.js';
import { busierSide } from '../classify/busier-side.js';
import { isTwin } from '../classify/twins.js';
import { isTook } from '../group-names.js';
import { sideOfTitle } from '../lexicon/sides.js';
import type { Kind, Slot } from './kind.js';
import { lengthPath } from './length-path.js';

/** A kind whose lines are stamped at the begin of a span and state its duration. */
export interface Spanning {
  /** The duration. */
  readonly slot: Slot;
  /** The kind at the times at which its spans ended. */
  readonly kind: Kind;
  /** Durations, ms, by occurrence. */
  readonly tookMs: readonly number[];
  /** It is the planned opening of the shutter. */
  readonly isExposure?: boolean;
}

/** Exposures of several trains overlap whatever their stamps are; shorter spans are sequential. */
const SHORT_MS = 200_000;
/** Short exposures overlap as well: the shortest spans are just as informative if there are enough of them. */
const SHORTER_MS = [SHORT_MS, 60_000] as const;
const SLACK_MS = 1500;
const MINUTE_MS = 60_000;
const MIN_SPANS = 8;
/** Minimum number and fraction of row kinds that state their durations alike. */
const MIN_KINDS = 3;
const NEARLY_ALL = 0.8;
/** This fraction of spans overlaps the previous one when counted back, and hardly any when counted forward. */
const RUNS_BACK = 0.3;
const RUNS_FORWARD = 0.4;
/**
 * Minimum fraction of spans with a line at their end; maximum of those with one where they would begin, counted back.
 */
const ANSWERED = 0.4;
const BEFORE = 0.25;

/**
 * The kinds of a log that stamps each span with its begin but writes it at the end: `21:03:10 focus, took 88 s`.
 * Inferred from the timeline: counted back from their stamps, such spans would overlap repeatedly.
 *
 * @param isKnown other rows have already shown this
 */
export function beginStamped(kinds: readonly Kind[], isKnown = false): ReadonlyMap<Kind, Spanning> {
  const named = lengthPath(kinds.filter(isBegun));
  // Where no title says so, only the timeline may show that the rows were written at the beginning.
  const path = named ?? lengthPath(kinds);
  const lead = leadingLengths(kinds);
  const lone = new Map(kinds.flatMap((kind) => (isBegun(kind) ? [[kind, loneLength(kind)] as const] : [])));
  const titles = new Set([...lone.values()].flatMap((one) => one?.before.slice(0, 1) ?? []));
  const stating = kinds.flatMap((kind): [Kind, Spanning][] => {
    const slot =
      (named === undefined || isBegun(kind)
        ? kind.slots.find((one) => path !== undefined && one.path === path && isOfSeconds(one))
        : undefined) ??
      tookSlot(kind) ??
      lone.get(kind) ??
      // Beside a limit, `not settled within 60 s`: the number named as those of the other kinds.
      (isBegun(kind) ? kind.slots.find((one) => isOfSeconds(one) && titles.has(one.before[0] ?? '')) : undefined) ??
      lead.get(kind);
    return slot === undefined ? [] : [[kind, spanningOf(kind, slot)]];
  });
  // If a separate line reports the end, the kind was logged at its begin, and so was its twin of another train.
  const again = stating.filter(([kind, one]) => isRepeated(kind, one, kinds)).map(([kind]) => kind);
  const spanning = new Map(stating.filter(([kind]) => !again.some((one) => one === kind || isTwin(one, kind))));
  if (isKnown) return spanning;
  const spans = [...spanning]
    .flatMap(([{ atMs }, { tookMs }]) => atMs.map((at, i) => ({ atMs: at, tookMs: tookMs[i] ?? NaN })))
    .filter(({ atMs, tookMs }) => !Number.isNaN(atMs) && tookMs <= SHORT_MS)
    .sort((a, b) => a.atMs - b.atMs);
  const isBegin = SHORTER_MS.some((mostMs) => runsBack(spans.filter(({ tookMs }) => tookMs <= mostMs)));
  if (isBegin || isAnswered(kinds, spans) || [...spanning].some(([kind, one]) => isBusyBefore(kind, one, kinds)))
    return spanning;
  // The name of the time field may say that it is the begin.
  return new Map([...spanning].filter(([kind]) => isBegun(kind)));
}

/** Minimum number of kinds of rows with both ends, and of frame rows, for the frames to be stamped alike. */
const MIN_RANGES = 3;
const MIN_FRAMES = 8;
/** Minimum number of consecutive frames that do not overlap, and of lines that decide which side is busier. */
const APART = 0.95;
const MUCH_BUSIER = 3;

/**
 * Frame rows, with a file and a duration, in a log whose other rows are stamped at the begin: so are these, if nothing
 * else happens on that side meanwhile. Rows whose time is named as a begin need no such confirmation.
 *
 * @param ranges the kinds whose rows state both ends, at their end times
 */
export function framesBegun(kinds: readonly Kind[], ranges: ReadonlyMap<Kind, Kind>): ReadonlyMap<Kind, Spanning> {
  const isUsual = ranges.size >= MIN_RANGES;
  if (!isUsual && !kinds.some(isBegun)) return new Map();
  const timesMs = [...ranges.keys(), ...ranges.values()]
    .flatMap(({ atMs }) => atMs.filter((ms) => !Number.isNaN(ms)))
    .sort((a, b) => a - b);
  return new Map(
    kinds.flatMap((kind): [Kind, Spanning][] => {
      const isNamed = isBegun(kind);
      if (ranges.has(kind) || kind.count < MIN_FRAMES || !(isUsual || isNamed)) return [];
      if (!kind.slots.some(({ type }) => type === 'file') || kind.slots.some(({ type }) => type === 'clock')) return [];
      const slot = kind.slots.find(isOfSeconds);
      if (slot === undefined) return [];
      const spanning = { ...spanningOf(kind, slot), isExposure: true };
      const { tookMs } = spanning;
      const order = kind.atMs.map((atMs, i) => ({ atMs, tookMs: tookMs[i] ?? NaN })).sort((a, b) => a.atMs - b.atMs);
      const apart = order.filter(
        ({ atMs, tookMs: ms }, i) => !(atMs + ms > (order[i + 1]?.atMs ?? Infinity) + SLACK_MS),
      ).length;
      const sides = order.map(({ atMs, tookMs: ms }) => busierSide(timesMs, atMs, ms));
      const [before, after] = (['before', 'after'] as const).map((side) => sides.filter((one) => one === side).length);
      const isBegin = isNamed ? !isRepeated(kind, spanning, kinds) : (before ?? 0) > MUCH_BUSIER * (after ?? 0);
      return apart >= APART * order.length && isBegin ? [[kind, spanning]] : [];
    }),
  );
}

/** A kind whose lines are stamped at the begin of spans with the duration in this slot. */
export function spanningOf(kind: Kind, slot: Slot): Spanning {
  const tookMs = slot.perLine.map((_, i) => lengthMs(slot, i));
  return { slot, tookMs, kind: { ...kind, atMs: kind.atMs.map((atMs, i) => atMs + (tookMs[i] ?? NaN)) } };
}

interface Span {
  readonly atMs: number;
  readonly tookMs: number;
}

/** Whether spans, counted back from their stamps, overlap the previous ones, while hardly any do counted forward. */
function runsBack(spans: readonly Span[]): boolean {
  let back = 0;
  let forward = 0;
  for (const [i, span] of spans.entries()) {
    const before = spans[i - 1];
    const after = spans[i + 1];
    if (before !== undefined && span.atMs - span.tookMs < before.atMs - SLACK_MS) back++;
    if (after !== undefined && span.atMs + span.tookMs > after.atMs + SLACK_MS) forward++;
  }
  return spans.length >= MIN_SPANS && back >= RUNS_BACK * spans.length && forward <= RUNS_FORWARD * back;
}

/**
 * Whether something is logged at the end of such spans, counted forward from their stamps, and hardly anything before.
 */
function isAnswered(kinds: readonly Kind[], spans: readonly Span[]): boolean {
  if (spans.length < MIN_SPANS) return false;
  const isLogged = loggedNear(kinds);
  const after = spans.filter(({ atMs, tookMs }) => isLogged(atMs + tookMs)).length;
  const before = spans.filter(({ atMs, tookMs }) => isLogged(atMs - tookMs)).length;
  return after >= ANSWERED * spans.length && before <= BEFORE * after;
}

/**
 * Whether other lines are within the spans of a kind counted back from its stamps, and hardly any within those
 * counted forward: what is done between exposures is not done during any.
 */
function isBusyBefore(kind: Kind, { tookMs }: Spanning, kinds: readonly Kind[]): boolean {
  const times = kinds
    .flatMap((other) => (other === kind ? [] : other.atMs))
    .filter((ms) => !Number.isNaN(ms))
    .sort((a, b) => a - b);
  const isBusy = (fromMs: number, toMs: number): boolean =>
    (times[partitionPoint(times, (ms) => ms > fromMs + SLACK_MS)] ?? Infinity) < toMs - SLACK_MS;
  const spans = kind.atMs.map((atMs, i) => ({ atMs, ms: tookMs[i] ?? NaN })).filter(({ atMs, ms }) => atMs + ms > 0);
  const before = spans.filter(({ atMs, ms }) => isBusy(atMs - ms, atMs)).length;
  const after = spans.filter(({ atMs, ms }) => isBusy(atMs, atMs + ms)).length;
  // Times to the second are informative by themselves.
  const isRough = spans.every(({ atMs }) => atMs % MINUTE_MS === 0);
  return isRough && spans.length >= MIN_SPANS && before >= RUNS_BACK * spans.length && after <= BEFORE * before;
}

/** Whether any line of these kinds is within seconds of an instant. */
function loggedNear(kinds: readonly Kind[]): (atMs: number) => boolean {
  const logged = new Set(kinds.flatMap(({ atMs }) => atMs.map((at) => Math.round(at / SLACK_MS))));
  return (atMs) => [-1, 0, 1].some((away) => logged.has(Math.round(atMs / SLACK_MS) + away));
}

/** Minimum fraction of planned spans that another kind reports again, with the duration, at their end. */
const REPEATED = 0.7;

/**
 * Whether lines of another kind coincide with the ends of a kind's spans and state the same durations; or coincide
 * nearly always and occur nowhere else, and state neither a duration nor a result.
 */
function isRepeated(kind: Kind, { tookMs }: Spanning, kinds: readonly Kind[]): boolean {
  const ends = kind.atMs.map((atMs, i) => ({ endMs: atMs + (tookMs[i] ?? NaN), ownMs: tookMs[i] ?? NaN }));
  return kinds.some((other) => {
    if (other === kind || other.count < REPEATED * kind.count) return false;
    const lengths = other.slots.filter(isOfSeconds);
    if (lengths.length === 0 && ends.length >= MIN_SPANS && !other.slots.some(({ type }) => type === 'file')) {
      const isLogged = loggedNear([other]);
      return ends.filter(({ endMs }) => isLogged(endMs)).length >= REPEATED * Math.max(ends.length, other.count);
    }
    return lengths.some((slot) => {
      const lengthsStated = other.atMs.map((atMs, i) => ({
        atMs,
        ms: lengthMs(slot, i),
      }));
      const again = ends.filter(({ endMs, ownMs }) =>
        lengthsStated.some(({ atMs, ms }) => Math.abs(atMs - endMs) <= SLACK_MS && Math.abs(ms - ownMs) <= SLACK_MS),
      );
      return again.length >= REPEATED * ends.length;
    });
  });
}

function isBegun({ timeName = '' }: Kind): boolean {
  return sideOfTitle([timeName]) === 'begin';
}

/** The seconds directly after the stamps, if nearly all lines of a text have them: `21:03:10  88 s  focus`. */
function leadingLengths(kinds: readonly Kind[]): ReadonlyMap<Kind, Slot> {
  const found = new Map(
    kinds.flatMap((kind): [Kind, Slot][] => {
      const [slot] = kind.slots;
      const isFirst =
        slot !== undefined && slot.path === null && slot.before.length === 0 && /^\W*#/.test(kind.wording);
      return isFirst && isOfSeconds(slot) ? [[kind, slot]] : [];
    }),
  );
  const lines = (of: Iterable<Kind>): number => [...of].reduce((sum, { count }) => sum + count, 0);
  return found.size >= MIN_KINDS && lines(found.keys()) >= NEARLY_ALL * lines(kinds) ? found : new Map();
}

/** The only number of seconds in rows that are no frames: `dur_s` beside a column titled as the beginning. */
function loneLength({ slots }: Kind): Slot | undefined {
  const [length, ...others] = slots.filter(isOfSeconds);
  return others.length > 0 || slots.some(({ type }) => type === 'file' || type === 'clock') ? undefined : length;
}

/** The number of seconds that a span took. */
function tookSlot({ slots }: Kind): Slot | undefined {
  return slots.find(isTook);
}
