/** How large a frame's stars are: from the pixels if measured, else from the header. */
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
   * The same scaled to the zenith, as if it were all seeing: it grows with air mass to the power of 0.6 (Kolmogorov
   * turbulence; from memory).
   */
  readonly zenith: number;
  readonly by: 'pixels' | 'header';
}

/** A train's frames with their star sizes, in order: several findings use them. */
export function sizedFrames(night: NightFacts, train: string): readonly SizedFrame[] {
  const known = sizedIn(night);
  const sized = known.get(train) ?? lightsOf(night, train).flatMap((frame) => sizedFrame(frame, night));
  known.set(train, sized);
  return sized;
}

const sizedIn = oncePer((_night: NightFacts) => new Map<string, readonly SizedFrame[]>());

/**
 * The frame with its star size; empty if unknown. Kept frames, and those doubtful or lost only because of swollen
 * stars: in others the stars may be trailed, and their minutes are counted elsewhere, as are those of frames whose
 * stars were enlarged by guiding.
 */
function sizedFrame(frame: JudgedFrame, night: NightFacts): SizedFrame[] {
  if (!frame.causes.every(({ kind }) => kind === 'swollen') || isGrownByGuiding(frame, night)) return [];
  const measured = ownValue(night.stars?.frames, frame.id)?.fwhm ?? null;
  const size = measured ?? frame.header?.starSize?.pixels;
  if (size === undefined || size <= 0) return [];
  const zenith = size / Math.max(1, frame.sky?.airmass ?? 1) ** 0.6;
  return [{ frame, size, zenith, by: measured === null ? 'header' : 'pixels' }];
}

/** The same frame with the width of its stars on the sensor, if the pixels were measured. */
export function asRecorded(sized: SizedFrame): SizedFrame {
  if (sized.by === 'header') return sized;
  const size = recordedFwhm(sized.size, sized.frame.header?.binning);
  return extended(sized, { size, zenith: (sized.zenith / sized.size) * size });
}
