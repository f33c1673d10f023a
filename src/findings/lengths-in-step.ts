/** Sub lengths advised for several trains of one mount, adjusted to meet at the dither. */
import {
  durationMs,
  hull,
  intersect,
  lightsOf,
  type NightFacts,
  type SubLength,
  type WeighedTotal,
} from '../model/index.js';
import { usualExposureMs } from './trains.js';

/** A sub of unfavourable length. */
export interface Unfit {
  readonly total: WeighedTotal;
  readonly sub: SubLength;
  readonly isShort: boolean;
}

/** Its advised length, and the gain. */
export interface Advised extends Unfit {
  readonly seconds: number;
  readonly winMs: number;
}

/**
 * Trains that are ready within this of each other meet, s: less does not count as waiting. Common practice, no source.
 */
const TOGETHER_S = 10;
/** Longest pause between subs, s: longer ones belong to dithers. */
const PAUSE_S = 5;
/** Maximum factor between an advised length and the best one for a train. */
const REACH = 1.6;
/** Trains that meet do so after at most this many of the longest subs. */
const MOST_SUBS = 4;

/**
 * Equal lengths, or one a whole multiple of the other including the pauses between subs: in step with the trains whose
 * length stays, else with the longest advised length, or with the shortest if shorter ones are advised. A length that
 * cannot meet stays at its optimum. Three or more trains must all meet at one dither.
 */
export function inStep(own: readonly Unfit[], night: NightFacts): Advised[] {
  const best = own.map((one): Advised => {
    const seconds = rounded(one.sub.best.seconds);
    const isBetter = one.isShort ? seconds > one.sub.seconds : seconds >= one.sub.enoughSeconds;
    return isBetter ? at(one, seconds) : { ...one, seconds: one.sub.best.seconds, winMs: one.sub.best.winMs };
  });
  const trains = new Set(own.map(({ total }) => total.train));
  const staying = stayingOf(own, night);
  if (trains.size + staying.length > 2) return atOneDither(best, staying) ?? best;
  const beat = beatOf(best, staying, night);
  return beat === null ? best : best.map((one) => metBy(one, beat));
}

/** A length and its gain. */
function at(one: Unfit, seconds: number): Advised {
  const { best } = one.sub;
  return { ...one, seconds, winMs: best.winMs + 1000 * (worth(one, seconds) - worth(one, best.seconds)) };
}

/**
 * The time between two dithers at which all advised lengths, and the trains whose length stays, meet, s; `null` if they
 * do not.
 */
export function meetingSpan(advised: readonly Advised[], night: NightFacts): number | null {
  const staying = stayingOf(advised, night);
  const periods = [
    ...advised.map(({ seconds, sub }) => seconds + sub.pauseSeconds),
    ...staying.map(({ period }) => period),
  ];
  const longest = Math.max(...periods);
  if (new Set(advised.map(({ total }) => total.train)).size + staying.length <= 2) {
    // Filters of one train are sequential: each has to meet the other train separately.
    const beat = beatOf(advised, staying, night);
    return beat === null || periods.every((period) => apart(beat.period, period) <= TOGETHER_S) ? longest : null;
  }
  const spans = Array.from({ length: MOST_SUBS }, (_, i) => (i + 1) * longest);
  return spans.find((span) => periods.every((period) => apart(span, period) <= TOGETHER_S)) ?? null;
}

/** A train that the others stay in step with, s. */
interface Beat {
  /** From sub to sub. */
  readonly period: number;
  readonly seconds: number;
}

/** Trains whose length stays, as it was while the others took the subs in question. */
function stayingOf(own: readonly Unfit[], night: NightFacts): Beat[] {
  const asked = hull(
    own.flatMap(({ total: { train, filter, target } }) =>
      lightsOf(night, train).flatMap((f) => (f.filter === filter && f.target === target ? [f.exposure] : [])),
    ),
  );
  return night.gathered.trains.flatMap(({ id }) => {
    if (own.some(({ total }) => total.train === id)) return [];
    const all = lightsOf(night, id);
    const meanwhile = asked === null ? [] : all.filter(({ exposure }) => intersect(exposure, asked) !== null);
    const lights = meanwhile.length > 1 ? meanwhile : all;
    const [first, second] = lights;
    if (!first || !second) return [];
    const pauseMs = second.exposure.startMs - first.exposure.startMs - durationMs(first.exposure);
    const seconds = usualExposureMs(lights) / 1000;
    return [{ seconds, period: seconds + Math.min(pauseMs / 1000, PAUSE_S) }];
  });
}

/** What the others stay in step with; `null` for a single train. */
function beatOf(own: readonly Advised[], [staying]: readonly Beat[], night: NightFacts): Beat | null {
  if (night.gathered.trains.length < 2) return null;
  if (staying !== undefined) return staying;
  const beats = own
    .map(({ seconds, sub }) => ({ seconds, period: seconds + sub.pauseSeconds }))
    .sort((a, b) => a.period - b.period);
  return (own[0]?.isShort ? beats.at(-1) : beats[0]) ?? null;
}

/** The lengths with the largest gain for which all trains are ready at one dither; `null` if there are none. */
function atOneDither(best: readonly Advised[], staying: readonly Beat[]): Advised[] | null {
  const periods = best.map(({ seconds, sub }) => seconds + sub.pauseSeconds);
  const base = Math.max(0, ...staying.map(({ period }) => period));
  const most = REACH * Math.max(...periods);
  const spans =
    base > 0
      ? Array.from({ length: Math.max(1, Math.floor(most / base)) }, (_, i) => (i + 1) * base)
      : periods.flatMap((period) => [period, 2 * period]);
  const fitting = spans
    .filter((span) => staying.every(({ period }) => apart(span, period) <= TOGETHER_S))
    .map((span) => best.map((one) => filling(one, span)))
    .flatMap((all) => (all.every((one) => one !== null) ? [all] : []));
  const won = (all: readonly Advised[]): number => all.reduce((total, { winMs }) => total + winMs, 0);
  return fitting.sort((a, b) => won(b) - won(a))[0] ?? null;
}

/** A length that divides the time between two dithers; `null` if none is near the optimum. */
function filling(one: Advised, span: number): Advised | null {
  const { pauseSeconds } = one.sub;
  const times = span / (one.seconds + pauseSeconds);
  const met = [Math.max(1, Math.floor(times)), Math.ceil(times)]
    .map((count) => ({ count, seconds: rounded(span / count - pauseSeconds) }))
    .filter(({ count, seconds }) => span - count * (seconds + pauseSeconds) <= TOGETHER_S)
    .filter(({ seconds }) => isWithinReach(one, seconds))
    .map(({ seconds }) => at(one, seconds));
  return met.sort((a, b) => b.winMs - a.winMs).find(({ winMs }) => winMs > 0) ?? null;
}

/** Whether subs of a length are acceptable: near the optimum, and on the right side of the previous length. */
function isWithinReach({ sub, isShort }: Unfit, seconds: number): boolean {
  return (
    seconds <= REACH * sub.best.seconds &&
    REACH * seconds >= sub.best.seconds &&
    (isShort ? seconds > sub.seconds : seconds >= sub.enoughSeconds && seconds < sub.seconds)
  );
}

function metBy(one: Advised, { period: beat, seconds: beatSeconds }: Beat): Advised {
  const { sub } = one;
  const period = one.seconds + sub.pauseSeconds;
  // The identical length if it is nearly that: one library of darks.
  if (Math.abs(beatSeconds - one.seconds) <= 2 * TOGETHER_S) return at(one, beatSeconds);
  if (apart(period, beat) <= TOGETHER_S) return one;
  const ratio = period / beat;
  const counts =
    ratio >= 1 ? [Math.floor(ratio), Math.ceil(ratio)] : [1 / Math.ceil(1 / ratio), 1 / Math.floor(1 / ratio)];
  const met = counts
    .map((count) => (count === 1 ? beatSeconds : rounded(count * beat - sub.pauseSeconds)))
    .filter((seconds) => isWithinReach(one, seconds))
    .map((seconds) => at(one, seconds))
    .sort((a, b) => b.winMs - a.winMs)[0];
  return met && met.winMs > 0 ? met : one;
}

/** Rounded down to a usual length, s: the train is ready a moment early, and its darks are reusable. */
export function rounded(seconds: number): number {
  const step = seconds < 30 ? 1 : seconds < 120 ? 5 : 10;
  return Math.max(1, Math.floor((seconds + 1) / step) * step);
}

/** How far apart whole multiples of two periods end, s. */
function apart(a: number, b: number): number {
  const [longer, shorter] = [Math.max(a, b), Math.min(a, b)];
  return Math.abs(longer - Math.round(longer / shorter) * shorter);
}

/** Seconds without read noise equivalent to the same hours in subs of a length (docs/worth.md). */
function worth({ total, sub }: Unfit, seconds: number): number {
  const background = sub.skyElectronsPerSecond + sub.darkElectronsPerSecond;
  const shutter = total.frames.taken * (sub.seconds + sub.pauseSeconds);
  const open = (shutter * seconds) / (seconds + sub.pauseSeconds) - sub.lostFrames * seconds;
  return open / (1 + sub.readNoiseElectrons ** 2 / (background * seconds));
}
