/** Sub lengths that are advised for several trains of one mount, made to meet at the dither. */
import { durationMs, lightsOf, type NightFacts, type SubLength, type WeighedTotal } from '../model/index.js';
import { usualExposureMs } from './trains.js';

/** A sub that was not of a good length. */
export interface Unfit {
  readonly total: WeighedTotal;
  readonly sub: SubLength;
  readonly isShort: boolean;
}

/** Its length as it is advised, and what that wins. */
export interface Advised extends Unfit {
  readonly seconds: number;
  readonly winMs: number;
}

/** Trains that are ready within this of each other meet, s: less is no waiting. Common practice, no source. */
const TOGETHER_S = 10;
/** A pause between subs that counts, s: what is longer is a dither's. */
const PAUSE_S = 5;
/** Nobody is asked to go further than this from the length that is best for a train, as a factor. */
const REACH = 1.6;

/**
 * Lengths equal, or one a whole multiple of the other with the pauses between subs: in step with the trains whose
 * length stays, else with the longest that is advised, or the shortest where shorter ones are. A length that cannot
 * meet stays as it is best.
 */
export function inStep(own: readonly Unfit[], night: NightFacts): Advised[] {
  const best = own.map((one): Advised => {
    const seconds = rounded(one.sub.best.seconds);
    const isBetter = one.isShort ? seconds > one.sub.seconds : seconds >= one.sub.enoughSeconds;
    return isBetter ? at(one, seconds) : { ...one, seconds: one.sub.best.seconds, winMs: one.sub.best.winMs };
  });
  const beat = beatOf(best, night);
  return beat === null ? best : best.map((one) => metBy(one, beat));
}

/** A length and what it wins. */
function at(one: Unfit, seconds: number): Advised {
  const { best } = one.sub;
  return { ...one, seconds, winMs: best.winMs + 1000 * (worth(one, seconds) - worth(one, best.seconds)) };
}

/** Whether all that is advised meets at the dither, and the trains whose length stays. */
export function areInStep(advised: readonly Advised[], night: NightFacts): boolean {
  const beat = beatOf(advised, night);
  return beat === null || advised.every((one) => apart(one.seconds + one.sub.pauseSeconds, beat.period) <= TOGETHER_S);
}

/** A train that the others keep step with, s. */
interface Beat {
  /** From sub to sub. */
  readonly period: number;
  readonly seconds: number;
}

/** What the others keep step with; `null` for a single train. */
function beatOf(own: readonly Advised[], night: NightFacts): Beat | null {
  if (night.gathered.trains.length < 2) return null;
  const staying = night.gathered.trains.flatMap(({ id }) => {
    if (own.some(({ total }) => total.train === id)) return [];
    const [first, second] = lightsOf(night, id);
    if (!first || !second) return [];
    const pauseMs = second.exposure.startMs - first.exposure.startMs - durationMs(first.exposure);
    const seconds = usualExposureMs(lightsOf(night, id)) / 1000;
    return [{ seconds, period: seconds + Math.min(pauseMs / 1000, PAUSE_S) }];
  });
  if (staying[0] !== undefined) return staying[0];
  const beats = own
    .map(({ seconds, sub }) => ({ seconds, period: seconds + sub.pauseSeconds }))
    .sort((a, b) => a.period - b.period);
  return (own[0]?.isShort ? beats.at(-1) : beats[0]) ?? null;
}

function metBy(one: Advised, { period: beat, seconds: beatSeconds }: Beat): Advised {
  const { sub, isShort } = one;
  const period = one.seconds + sub.pauseSeconds;
  // The very same length where it is nearly that: one library of darks.
  if (Math.abs(beatSeconds - one.seconds) <= 2 * TOGETHER_S) return at(one, beatSeconds);
  if (apart(period, beat) <= TOGETHER_S) return one;
  const ratio = period / beat;
  const counts =
    ratio >= 1 ? [Math.floor(ratio), Math.ceil(ratio)] : [1 / Math.ceil(1 / ratio), 1 / Math.floor(1 / ratio)];
  const met = counts
    .map((count) => (count === 1 ? beatSeconds : rounded(count * beat - sub.pauseSeconds)))
    .filter((seconds) => seconds <= REACH * sub.best.seconds && REACH * seconds >= sub.best.seconds)
    .filter((seconds) => (isShort ? seconds > sub.seconds : seconds >= sub.enoughSeconds && seconds < sub.seconds))
    .map((seconds) => at(one, seconds))
    .sort((a, b) => b.winMs - a.winMs)[0];
  return met && met.winMs > 0 ? met : one;
}

/** Down to a length that somebody would set, s: the train is ready a moment early, and darks of it are of use again. */
export function rounded(seconds: number): number {
  const step = seconds < 30 ? 1 : seconds < 120 ? 5 : 10;
  return Math.max(1, Math.floor((seconds + 1) / step) * step);
}

/** How far whole numbers of two periods end from each other, s. */
function apart(a: number, b: number): number {
  const [longer, shorter] = [Math.max(a, b), Math.min(a, b)];
  return Math.abs(longer - Math.round(longer / shorter) * shorter);
}

/** Seconds without read noise that the same hours are worth in subs of a length (docs/worth.md). */
function worth({ total, sub }: Unfit, seconds: number): number {
  const background = sub.skyElectronsPerSecond + sub.darkElectronsPerSecond;
  const shutter = total.frames.taken * (sub.seconds + sub.pauseSeconds);
  const open = (shutter * seconds) / (seconds + sub.pauseSeconds) - sub.lostFrames * seconds;
  return open / (1 + sub.readNoiseElectrons ** 2 / (background * seconds));
}
