/** Lengths of a train's subs: those with darks, and the maximum length if pixels were measured. */
import {
  calibrationOf,
  durationMs,
  median,
  ownValue,
  worthOfTotal,
  type AccountedNight,
  type JudgedFrame,
  type Night,
} from '../../model/index.js';

/** The input of the replay: without stars nothing limits a sub's length, without worth nothing requires another. */
export type ReplayedNight = AccountedNight & Partial<Pick<Night, 'stars' | 'worth'>>;

/** Saturated fraction of the pixels beyond which no longer sub is advised. Common practice, no source. */
const SATURATED_SHARE = 0.002;

/** Requested exposure, ms. */
export function askedMs(frame: JudgedFrame): number {
  return Math.max(1000, frame.askedMs ?? durationMs(frame.exposure));
}

/** Lengths of the night's lights and of the available darks, rounded to whole seconds, ms. */
export function lengthsOf(train: string, lights: readonly JudgedFrame[], night: AccountedNight): number[] {
  const darks = calibrationOf(night).filter((f) => f.train === train && f.kind === 'dark');
  const lengths = [...lights.map(askedMs), ...darks.map((f) => durationMs(f.exposure))];
  return [...new Set(lengths.map((ms) => Math.round(ms / 1000) * 1000))];
}

/**
 * The length up to which sky and read noise favour longer subs of a train, all its filters alike: twice or four times
 * the usual one, ms; `null` if they do not favour twice as long, or are unknown. Deliberately coarse, since it is also
 * in shared reports, and the sky of a site is private.
 */
export function longerUpTo(train: string, usualMs: number, { accounts, worth = null }: ReplayedNight): number | null {
  const subs = accounts.totals.filter((t) => t.train === train).map((t) => worthOfTotal({ worth }, t)?.sub ?? null);
  const asked = subs.flatMap((sub) =>
    sub !== null && sub.best.seconds > sub.seconds && sub.extraNoise > sub.tolerated ? [sub.best.seconds * 1000] : [],
  );
  if (asked.length === 0 || asked.length < subs.length) return null;
  const doublings = Math.floor(Math.log2(Math.min(...asked) / usualMs) + 1e-9);
  return doublings < 1 ? null : usualMs * 2 ** doublings;
}

/**
 * The longest sub allowed by the measured flexure relative to the guided train, or by saturation; `null` without a
 * limit.
 */
export function longestSub(
  train: string,
  lights: readonly JudgedFrame[],
  { stars }: ReplayedNight,
): { ms: number; why: string } | null {
  if (!stars) return null;
  const limits = stars.pairs.flatMap(({ trains, flexure }) =>
    trains[1] === train && flexure?.isMeasured && flexure.longestSubSeconds !== null
      ? [
          {
            ms: flexure.longestSubSeconds * 1000,
            why:
              `flexure trails stars by more than half a pixel in subs longer than ` +
              `${Math.floor(flexure.longestSubSeconds)} s`,
          },
        ]
      : [],
  );
  const seen = lights.flatMap((light) => {
    const own = ownValue(stars.frames, light.id);
    return own ? [{ share: own.saturated, ms: askedMs(light) }] : [];
  });
  if (seen.length > 0 && median(seen.map((s) => s.share)) > SATURATED_SHARE) {
    const ms = median(seen.map((s) => s.ms));
    limits.push({
      ms,
      why: `more than ${SATURATED_SHARE * 100} % of the pixels are saturated at ${Math.round(ms / 1000)} s already`,
    });
  }
  return limits.sort((a, b) => a.ms - b.ms)[0] ?? null;
}
