/**
 * How large a frame's stars are: by the pixels where they were measured, else as the header has it.
 */
import { isGrownByGuiding } from './grown-by-guiding.js';
import {
  extended,
  lightsOf,
  oncePer,
  ownValue,
  recordedFwhm,
  type JudgedFrame,
  type NightFacts,
} from '../model/index.js';

/** Stars of one frame, px. */
export interface SizedFrame {
  readonly frame: JudgedFrame;
  readonly size: number;
  /**
   * The same brought to the zenith, as if seeing were all of it: it grows with air mass to the power of 0.6 (Kolmogorov
   * turbulence; from memory).
   */
  readonly zenith: number;
  readonly by: 'pixels' | 'header';
}

/** A train's frames with the sizes of their stars, in order: several findings ask for them. */
export function sizedFrames(night: NightFacts, train: string): readonly SizedFrame[] {
  const known = sizedIn(night);
  const sized = known.get(train) ?? lightsOf(night, train).flatMap((frame) => sizedFrame(frame, night));
  known.set(train, sized);
  return sized;
}

const sizedIn = oncePer((_night: NightFacts) => new Map<string, readonly SizedFrame[]>());

/**
 * The frame with the size of its stars; empty where it is not known. Frames that are kept, and those that nothing but
 * their swollen stars makes doubtful or lost: in others the stars may be drawn out, and their minutes are counted
 * elsewhere, as are those of frames whose guiding made the stars larger.
 */
function sizedFrame(frame: JudgedFrame, night: NightFacts): SizedFrame[] {
  if (!frame.causes.every(({ kind }) => kind === 'swollen') || isGrownByGuiding(frame, night)) return [];
  const measured = ownValue(night.stars?.frames, frame.id)?.fwhm ?? null;
  const size = measured ?? frame.header?.starSize?.pixels;
  if (size === undefined || size <= 0) return [];
  const zenith = size / Math.max(1, frame.sky?.airmass ?? 1) ** 0.6;
  return [{ frame, size, zenith, by: measured === null ? 'header' : 'pixels' }];
}

/** The same frame by the width that its stars have on the sensor, where the pixels were measured. */
export function asRecorded(sized: SizedFrame): SizedFrame {
  if (sized.by === 'header') return sized;
  const size = recordedFwhm(sized.size, sized.frame.header?.binning);
  return extended(sized, { size, zenith: (sized.zenith / sized.size) * size });
}
