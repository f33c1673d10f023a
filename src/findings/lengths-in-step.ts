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
const TOGETHER_S = 5;
/** Nobody is asked to go further than this from the length that is best for a train, as a factor. */
const REACH = 1.6;

/**
 * Lengths equal, or one a whole multiple of the other with the pauses between subs: in step with the trains whose
 * length stays, else with the longest that is advised, or the shortest where shorter ones are. A length that cannot
 * meet stays as it is best.
 */
export function inStep(own: readonly Unfit[], night: NightFacts): Advised[] {
  const best = own.map((one): Advised => ({ ...one, seconds: one.sub.best.seconds, winMs: one.sub.best.winMs }));
  const beat = beatOf(own, night);
  return beat === null ? best : best.map((one) => metBy(one, beat));
}

/** Whether all that is advised meets at the dither, and the trains whose length stays. */
export function areInStep(advised: readonly Advised[], night: NightFacts): boolean {
  const beat = beatOf(advised, night);
  return beat === null || advised.every((one) => apart(one.seconds + one.sub.pauseSeconds, beat) <= TOGETHER_S);
}

/** The time from sub to sub that the others keep step with, s; `null` for a single train. */
function beatOf(own: readonly Unfit[], night: NightFacts): number | null {
  if (night.gathered.trains.length < 2) return null;
  const staying = night.gathered.trains.flatMap(({ id }) => {
    if (own.some(({ total }) => total.train === id)) return [];
    const [first, second] = lightsOf(night, id);
    if (!first || !second) return [];
    const pauseMs = second.exposure.startMs - first.exposure.startMs - durationMs(first.exposure);
    return [(usualExposureMs(lightsOf(night, id)) + Math.min(pauseMs, 1000 * TOGETHER_S)) / 1000];
  });
  if (staying[0] !== undefined) return staying[0];
  const periods = own.map(({ sub }) => sub.best.seconds + sub.pauseSeconds);
  return own[0]?.isShort ? Math.max(...periods) : Math.min(...periods);
}

function metBy(one: Advised, beat: number): Advised {
  const { sub, isShort } = one;
  const period = sub.best.seconds + sub.pauseSeconds;
  if (apart(period, beat) <= TOGETHER_S) return one;
  const ratio = period / beat;
  const counts =
    ratio >= 1 ? [Math.floor(ratio), Math.ceil(ratio)] : [1 / Math.ceil(1 / ratio), 1 / Math.floor(1 / ratio)];
  const met = counts
    .map((count) => Math.floor(count * beat - sub.pauseSeconds))
    .filter((seconds) => seconds <= REACH * sub.best.seconds && REACH * seconds >= sub.best.seconds)
    .filter((seconds) => (isShort ? seconds > sub.seconds : seconds >= sub.enoughSeconds && seconds < sub.seconds))
    .map((seconds) => ({
      seconds,
      winMs: sub.best.winMs + 1000 * (worth(one, seconds) - worth(one, sub.best.seconds)),
    }))
    .sort((a, b) => b.winMs - a.winMs)[0];
  return met && met.winMs > 0 ? { ...one, ...met } : one;
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
