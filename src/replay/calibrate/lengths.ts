/**
 * Lengths of a train's subs: which it has darks for, and how long one may be where pixels were measured.
 */
import {
  calibrationOf,
  durationMs,
  median,
  ownValue,
  type AccountedNight,
  type JudgedFrame,
  type Night,
} from '../../model/index.js';

/** What the replay looks at; without stars nothing limits a sub's length. */
export type ReplayedNight = AccountedNight & Partial<Pick<Night, 'stars'>>;

/** Saturated share of the read pixels beyond which no longer sub is advised. Common practice, no source. */
const SATURATED_SHARE = 0.002;

/** Exposure asked for, ms. */
export function askedMs(frame: JudgedFrame): number {
  return Math.max(1000, frame.askedMs ?? durationMs(frame.exposure));
}

/** Lengths of the night's lights and of the darks at hand, rounded to whole seconds, ms. */
export function lengthsOf(train: string, lights: readonly JudgedFrame[], night: AccountedNight): number[] {
  const darks = calibrationOf(night).filter((f) => f.train === train && f.kind === 'dark');
  const lengths = [...lights.map(askedMs), ...darks.map((f) => durationMs(f.exposure))];
  return [...new Set(lengths.map((ms) => Math.round(ms / 1000) * 1000))];
}

/** The longest sub that the measured flexure against the guided train, or saturation, bears; `null` without a limit. */
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
            why: `flexure draws more than half a pixel in subs longer than ${Math.floor(flexure.longestSubSeconds)} s`,
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
