/**
 * How large a frame's stars are: by the pixels where they were measured, else as the header has it.
 */
import { isGrownByGuiding } from './grown-by-guiding.js';
import { extended, lightsOf, oncePer, ownValue, type JudgedFrame, type NightFacts } from '../model/index.js';

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

/** FWHM below which less and less of the pixel's width is in the measured one, none below 1.5 px, px as stored. */
const PIXEL_IN = 1.8;
const PIXEL_OUT = 1.5;
/** FWHM squared of a pixel, 8 ln 2 / 12 px². */
const PIXEL_SQUARED = (2 * Math.LN2) / 3;

/**
 * The same frame by the width that its stars have on the sensor, the pixel in it: from 1.5 to 1.8 px the measured one
 * grows half as fast again, for the pixel comes into it there.
 */
export function asRecorded(sized: SizedFrame): SizedFrame {
  const { x = 1, y = x } = sized.frame.header?.binning ?? {};
  const pixel = Math.sqrt(x * y);
  const fwhm = sized.size / pixel;
  if (sized.by === 'header' || fwhm >= PIXEL_IN) return sized;
  const bare = Math.sqrt(fwhm ** 2 + PIXEL_SQUARED);
  const rate = PIXEL_SQUARED / (PIXEL_IN - PIXEL_OUT);
  const between = (Math.sqrt(rate ** 2 + 4 * (fwhm ** 2 + rate * PIXEL_IN)) - rate) / 2;
  const times = (bare <= PIXEL_OUT ? bare : between) / fwhm;
  return extended(sized, { size: sized.size * times, zenith: sized.zenith * times });
}
