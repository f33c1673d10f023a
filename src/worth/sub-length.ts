/** Whether subs were long enough to overcome the read noise, or longer than the risk of losing one justifies. */
import { median, type CauseKind, type JudgedFrame, type SubLength } from '../model/index.js';
import type { MaybeWeighed } from './maybe-weighed.js';
import { extraNoise, secondsForExtraNoise } from './noise.js';
import type { Noise } from './noise-basis.js';

/** Maximum extra noise for a sub to be long enough. Common practice, no source. */
const TOLERATED = 0.05;
/** Lengths tried, relative to the actual sub. */
const FACTORS = [1 / 4, 1 / 3, 1 / 2, 1, 2, 3, 4];
/** Longer subs involve more risks than computed here: satellites, wind, saturated stars. Common practice, no source. */
const LONGEST_SECONDS = 900;
/** Longer pauses are not pauses between two subs. */
const LONGEST_PAUSE_MS = 60_000;
/** Costs a whole sub, however long it is. */
const LENGTH_BOUND: readonly CauseKind[] = ['mount-motion', 'guiding-off', 'trailed', 'doubled'];

export interface SubLengthInput {
  /** All lights of one target, filter and train, sorted by start. */
  readonly lights: readonly MaybeWeighed[];
  /** All lights of the train, sorted by start: for the pauses. */
  readonly ofTrain: readonly JudgedFrame[];
  readonly seconds: number;
  readonly noise: Noise;
}

/** Assesses the usual sub of one target, filter and train; `null` when read noise or sky are unknown. */
export function subLength({ lights, ofTrain, seconds, noise }: SubLengthInput): SubLength | null {
  const skies = lights.flatMap((f) =>
    f.verdict === 'kept' && f.worth?.skyElectronsPerSecond != null ? [f.worth.skyElectronsPerSecond] : [],
  );
  if (!noise.full || skies.length === 0 || seconds <= 0) return null;
  const { readNoise } = noise.full;
  const sky = median(skies);
  const background = sky + noise.dark;
  const pauseSeconds = pauseBetween(ofTrain) / 1000;
  const lostFrames = lights.filter(
    (f) => f.verdict === 'lost' && f.causes.some(({ kind }) => LENGTH_BOUND.includes(kind)),
  ).length;
  const shutterSeconds = lights.length * (seconds + pauseSeconds);
  /** Seconds without read noise equivalent to the same hours in subs of a length. */
  const worth = (sub: number): number => {
    const open = (shutterSeconds * sub) / (sub + pauseSeconds) - lostFrames * sub;
    return open / (1 + extraNoise(background, readNoise, sub)) ** 2;
  };
  const isLongEnough = (sub: number): boolean => extraNoise(background, readNoise, sub) <= TOLERATED;
  const lengths = FACTORS.map((factor) => factor * seconds);
  // If read noise does not matter there is no reason for longer subs; if it does, none for shorter ones, or for more
  // than necessary.
  const longer = lengths.filter((sub) => sub >= seconds && sub <= Math.max(seconds, LONGEST_SECONDS));
  const enough = longer.findIndex(isLongEnough);
  const tried = isLongEnough(seconds)
    ? lengths.filter((sub) => sub <= seconds && isLongEnough(sub))
    : longer.slice(0, enough < 0 ? longer.length : enough + 1);
  const best = tried.reduce((a, b) => (worth(b) > worth(a) ? b : a), seconds);
  return {
    seconds,
    skyElectronsPerSecond: sky,
    darkElectronsPerSecond: noise.dark,
    readNoiseElectrons: readNoise,
    extraNoise: extraNoise(background, readNoise, seconds),
    enoughSeconds: secondsForExtraNoise(background, readNoise, TOLERATED),
    tolerated: TOLERATED,
    pauseSeconds,
    lostFrames,
    best: {
      seconds: best,
      extraNoise: extraNoise(background, readNoise, best),
      winMs: 1000 * (worth(best) - worth(seconds)),
    },
  };
}

/** Median pause between a train's frames, ms; 0 when no two follow each other. */
function pauseBetween(frames: readonly JudgedFrame[]): number {
  const pauses = frames.flatMap((frame, i) => {
    const next = frames[i + 1];
    const pause = next ? next.exposure.startMs - frame.exposure.endMs : Infinity;
    return pause >= 0 && pause <= LONGEST_PAUSE_MS ? [pause] : [];
  });
  return pauses.length > 0 ? median(pauses) : 0;
}
