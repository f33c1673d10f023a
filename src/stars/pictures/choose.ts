/** Which frames are worth a picture. */
import {
  durationMs,
  groupBy,
  midpointMs,
  ownValue,
  type FrameStars,
  type JudgedFrame,
  type NightStars,
} from '../../model/index.js';

export const STRIPS_MAX = 12;
export const FIELDS_MAX = 6;

/** A frame that is not kept, and the kept one nearest in time that shows what it should look like. */
export interface StripChoice {
  readonly frame: JudgedFrame;
  readonly beside: JudgedFrame;
}

type StarsById = NightStars['frames'];

/**
 * Frames that are not kept, those to review first, each with a kept frame of the same train, target, filter and length.
 */
export function chooseStrips(lights: readonly JudgedFrame[], stars: StarsById): StripChoice[] {
  const measured = lights.filter(({ id }) => hasStars(ownValue(stars, id)));
  const harmed = [
    ...measured.filter(({ verdict }) => verdict === 'doubtful'),
    ...measured.filter(({ verdict }) => verdict === 'lost'),
  ];
  return harmed
    .flatMap((frame): StripChoice[] => {
      const beside = measured
        .filter((other) => other.verdict === 'kept' && groupOf(other) === groupOf(frame))
        .reduce<JudgedFrame | undefined>(
          (best, other) => (best === undefined || apart(other, frame) < apart(best, frame) ? other : best),
          undefined,
        );
      return beside === undefined ? [] : [{ frame, beside }];
    })
    .slice(0, STRIPS_MAX);
}

/**
 * A frame with less than this fraction of the longest exposure shows noise where that shows stars. Common practice, no
 * source.
 */
const LONG_SHARE = 0.1;

/**
 * The sharpest kept frame of each target and train, in the order in which they were first imaged. Short frames for a
 * bright core are skipped if there are long ones.
 */
export function chooseFields(lights: readonly JudgedFrame[], stars: StarsById): JudgedFrame[] {
  const kept = lights.filter(({ id, verdict }) => verdict === 'kept' && hasStars(ownValue(stars, id)));
  return [...groupBy(kept, ({ target, train }) => JSON.stringify([target, train])).values()]
    .flatMap((group) => {
      const width = ({ id }: JudgedFrame): number => ownValue(stars, id)?.fwhm ?? Infinity;
      const clear = group.filter(({ id }) => (ownValue(stars, id)?.flux ?? 1) > 0.8);
      const shown = clear.length > 0 ? clear : group;
      const longestMs = Math.max(...shown.map(({ exposure }) => durationMs(exposure)));
      const fit = shown.filter(({ exposure }) => durationMs(exposure) >= LONG_SHARE * longestMs);
      return (
        fit.reduce<JudgedFrame | undefined>(
          (best, frame) => (best === undefined || width(frame) < width(best) ? frame : best),
          undefined,
        ) ?? []
      );
    })
    .slice(0, FIELDS_MAX);
}

function hasStars(stars: FrameStars | undefined): boolean {
  return stars !== undefined && stars.fwhm !== null;
}

/** Frames that look alike unless something harms them. */
function groupOf({ train, target, filter, askedMs, exposure }: JudgedFrame): string {
  return JSON.stringify([train, target, filter, Math.round((askedMs ?? durationMs(exposure)) / 1000)]);
}

function apart(a: JudgedFrame, b: JudgedFrame): number {
  return Math.abs(midpointMs(a.exposure) - midpointMs(b.exposure));
}
