import type { EventName } from '../../../../model/index.js';
import type { Kind, Slot } from '../kinds/kind.js';
import { isPixels, isTook, tookUnit } from '../group-names.js';
import { numberIn } from '../kinds/values.js';
import { followsSetpoint } from './cooling.js';
import type { Occurrence } from './occurrences.js';
import { withoutRemaining } from './remaining.js';

/** A kind whose lines state for how long the shutter opens, and the kind that closes it after that time. */
export interface StatedExposure {
  readonly begin: Kind;
  readonly seconds: Slot;
  /** Seconds per unit of the slot: 1, or 0.001 for milliseconds. */
  readonly unitSeconds: number;
  /** `null` when no line reports that it closes. */
  readonly end: Kind | null;
}

/** Tolerance for the end of an exposure before and after its stated length: readouts are slow, stamps are truncated. */
const EARLY_MS = 1500;
const LATE_MS = 8000;
const ON_TIME_MS = 3000;
/** Reading a log as two trains must yield this many times the exposures of reading it as one. */
const MANY_MORE = 2;
const UNITS = [1, 0.001, 60] as const;

/**
 * Finds exposures without knowing a word: lines that state a number of seconds at the beginning, and another line
 * exactly that many seconds later, repeatedly.
 */
export function statedExposures(kinds: readonly Kind[], timeline: readonly Occurrence[]): StatedExposure[] {
  return withoutRemaining(exposuresOf(kinds, timeline));
}

function exposuresOf(kinds: readonly Kind[], timeline: readonly Occurrence[]): StatedExposure[] {
  const found = exposuresIn(kinds, timeline, false);
  // Another shutter may open meanwhile: the log may cover two trains. Coincidental matches are rare.
  const several = exposuresIn(kinds, timeline, true);
  return linesOf(several) > MANY_MORE * linesOf(found) ? several : found;
}

function linesOf(exposures: readonly StatedExposure[]): number {
  return exposures.reduce((sum, { begin }) => sum + begin.count, 0);
}

function exposuresIn(kinds: readonly Kind[], timeline: readonly Occurrence[], several: boolean): StatedExposure[] {
  const indexOf = new Map<Kind, number[]>();
  timeline.forEach(({ kind }, i) => {
    const own = indexOf.get(kind);
    if (own === undefined) indexOf.set(kind, [i]);
    else own.push(i);
  });
  return kinds.flatMap((begin) => {
    const indices = indexOf.get(begin) ?? [];
    if (indices.length < 3) return [];
    const found = begin.slots
      .filter(({ type, path }) => type === 'number' && !(isFiled(begin) && path?.startsWith('in.') === true))
      .flatMap((seconds) =>
        UNITS.filter((unit) => isUnit(seconds, unit) && isPlanned(seconds, unit)).flatMap(
          (unitSeconds) => closing(begin, seconds, unitSeconds, indices, timeline, several) ?? [],
        ),
      )
      .sort((a, b) => b.share - a.share)[0];
    return found === undefined ? [] : [found];
  });
}

/** Requested lengths are round: hardly anybody exposes for 10.9 s. */
function isPlanned(slot: Slot, unitSeconds: number): boolean {
  const round = slot.values.filter((value) => Number.isInteger(numberIn(value) * (unitSeconds === 0.001 ? 0.01 : 2)));
  return round.length >= 0.8 * slot.values.length;
}

/** Whether the values can have this unit: milliseconds and minutes must be named. */
function isUnit(slot: Slot, unitSeconds: number): boolean {
  if (unitSeconds === 1) return tookUnit(slot) !== 0.001;
  if (unitSeconds === 60) return /^m(?:in\w*)?$/.test(slot.after) || slot.before.some((word) => /^min/.test(word));
  return (
    tookUnit(slot) === 0.001 || slot.values.every((value) => numberIn(value) >= 1000 && numberIn(value) % 1000 === 0)
  );
}

/** A record of a file that stands inside that of its exposure has the length of the latter around it. */
const isFiled = ({ slots }: Kind): boolean => slots.some(({ type }) => type === 'file');

function closing(
  begin: Kind,
  seconds: Slot,
  unitSeconds: number,
  indices: readonly number[],
  timeline: readonly Occurrence[],
  several: boolean,
): (StatedExposure & { share: number }) | null {
  const hits = new Map<Kind, { count: number; excessMs: number }>();
  let closed = 0;
  let tried = 0;
  for (const [i, index] of indices.slice(0, 300).entries()) {
    const value = numberIn(seconds.perLine[i]) * unitSeconds;
    const fromMs = timeline[index]?.atMs ?? NaN;
    if (!(value >= 5 && value <= 7200)) return null;
    tried++;
    const seen = new Set<Kind>();
    for (let k = index + 1; k < timeline.length; k++) {
      const other = timeline[k];
      if (other === undefined) break;
      const excessMs = other.atMs - fromMs - value * 1000;
      if (excessMs > LATE_MS || (other.kind === begin && !several)) break;
      if (excessMs < -EARLY_MS || other.kind === begin || seen.has(other.kind)) continue;
      // A file is saved after the frame's readout.
      if (seen.size === 0 && (excessMs < ON_TIME_MS || isFiled(other.kind))) closed++;
      seen.add(other.kind);
      const hit = hits.get(other.kind) ?? { count: 0, excessMs: 0 };
      hits.set(other.kind, hit);
      hit.count++;
      hit.excessMs += Math.abs(excessMs);
    }
  }
  const [end, hit] =
    [...hits]
      .filter(([, { count }]) => count >= 0.6 * tried)
      .sort((a, b) => a[1].excessMs / a[1].count - b[1].excessMs / b[1].count)[0] ?? [];
  if (end === undefined || hit === undefined)
    // Several wordings may close it in turn: each too rarely, all together on time.
    return tried >= 8 && closed >= 0.85 * tried
      ? { begin, seconds, unitSeconds, end: null, share: closed / tried }
      : null;
  const saves = end.slots.some(({ type }) => type === 'file');
  return { begin, seconds, unitSeconds, end: saves ? null : end, share: hit.count / tried };
}

/**
 * The kinds whose lines repeatedly coincide with the end of an exposure's stated length, with the fraction that do: one
 * log may use several wordings.
 */
export function onTime(stated: readonly StatedExposure[], timeline: readonly Occurrence[]): Map<Kind, number> {
  const counts = new Map<Kind, { all: number; hits: number }>();
  const seen = new Map<Kind, number>();
  let closesMs = NaN;
  for (const { kind, atMs } of timeline) {
    const own = stated.find(({ begin }) => begin === kind);
    if (own !== undefined) {
      const nth = seen.get(kind) ?? 0;
      seen.set(kind, nth + 1);
      closesMs = atMs + numberIn(own.seconds.perLine[nth]) * own.unitSeconds * 1000;
      continue;
    }
    const count = counts.get(kind) ?? { all: 0, hits: 0 };
    counts.set(kind, count);
    count.all++;
    // The first line at that time reports it; later ones are about saving and what comes next.
    if (atMs >= closesMs - EARLY_MS && atMs <= closesMs + ON_TIME_MS) {
      count.hits++;
      closesMs = NaN;
    }
  }
  return new Map([...counts].flatMap(([kind, { all, hits }]) => (hits >= 2 ? [[kind, hits / all] as const] : [])));
}

/** The evidence of a kind's values, in addition to its words. */
export function valueEvidence(kind: Kind): Map<EventName, number> {
  const has = (type: Slot['type']): boolean => kind.slots.some((slot) => slot.type === type);
  const numbers = kind.slots.filter(({ type }) => type === 'number');
  const evidence = new Map<EventName, number>();
  const add = (event: EventName, value: number): void => void evidence.set(event, (evidence.get(event) ?? 0) + value);
  if (has('file')) {
    add('frame-saved', 2.6);
    add('exposure-end', 0.3);
  }
  if (has('filter')) {
    add('filter-begin', 0.3);
    add('filter-end', 0.3);
    add('exposure-begin', 0.3);
    if (numbers.length > 0 && !has('file')) add('exposure-begin', 0.9);
    // Only an exposure lasts that long.
    if (numbers.some((slot) => isTook(slot) && slot.values.every((value) => inside(value, 20, 7200))))
      add('exposure-end', 1.2);
  }
  if (has('designation')) {
    for (const event of ['slew-begin', 'slew-end', 'centre-begin'] as const) add(event, 0.6);
    add('exposure-begin', 0.6);
  }
  if (
    numbers.some(
      (slot) =>
        tookUnit(slot) === null &&
        slot.values.some((value) => /[.,]/.test(value)) &&
        slot.values.every((value) => inside(value, 0.2, 60)),
    )
  )
    add('dither-begin', 0.4);
  if (numbers.some(({ values }) => values.every((value) => inside(value, 500, 200_000) && !/[.,]/.test(value)))) {
    add('focus-begin', 0.3);
    add('focus-end', 0.5);
    // A position and star sizes: only a finished run has them.
    if (
      numbers.filter(({ values }) => values.every((value) => /[.,]/.test(value) && inside(value, 0.5, 20))).length > 1
    )
      add('focus-end', 0.8);
  }
  // A dither has a size in pixels; readiness for one has none.
  if (numbers.some((slot) => isPixels(slot) && slot.values.every((value) => inside(value, 0.2, 60)))) {
    add('dither-begin', 0.6);
    add('dither-ready', -3);
  }
  if (isCooling(numbers) || reachesSetpoint(kind)) add('cooler', 2.4);
  return evidence;
}

function inside(value: string, from: number, to: number): boolean {
  const number = numberIn(value);
  return number >= from && number <= to;
}

/**
 * Detects a cooler from its numbers alone: one temperature is constant, the other approaches it from far away and
 * stays.
 */
export function reachesSetpoint(kind: Kind): boolean {
  if (followsSetpoint(kind)) return true;
  const numbers = kind.slots.filter(({ type }) => type === 'number');
  const temperatures = numbers.filter(({ values }) => values.every((value) => inside(value, -60, 45)));
  if (temperatures.length !== 2 || numbers.length !== 2 || kind.count < 3) return false;
  const [still, moving] = [...temperatures].sort((a, b) => a.values.length - b.values.length);
  if (still === undefined || moving === undefined || still.values.length > 2) return false;
  const away = moving.perLine.map((value, i) => Math.abs(numberIn(value) - numberIn(still.perLine[i])));
  const [first = 0] = away;
  const late = away.slice(Math.ceil(away.length / 2)).sort((a, b) => a - b);
  return (
    numberIn(still.values[0]) <= 5 &&
    first > 3 &&
    (late[Math.floor(late.length / 2)] ?? 99) < 0.5 * first &&
    Math.min(...away) < 2.5
  );
}

/** Two temperatures, one of which hardly ever changes: setpoint and actual. */
function isCooling(numbers: readonly Slot[]): boolean {
  const temperatures = numbers.filter(({ values }) => values.every((value) => inside(value, -60, 45)));
  const steady = temperatures.some(({ values, perLine }) => values.length <= 3 && perLine.length > 2 * values.length);
  const moving = temperatures.some(({ values }) => values.length > 3);
  return temperatures.length >= 2 && steady && moving;
}
