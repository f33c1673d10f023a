/**
 * Doubled stars in a frame, all with one displacement: the mount moved while the shutter was open.
 *
 * The surroundings of the brightest stars are laid over each other, each in units of its own star. From the value at
 * every offset the value opposite is subtracted, so that everything symmetric about a star cancels: wings, trails,
 * spikes, a gradient. Neighbours differ from star to star and vanish in the median; a second image stands at the same
 * offset beside every star and stays. Where both images are about equally bright, half of the stars see the other one
 * at +d and half at −d; then the median of the amounts tells. Derived here.
 */
import { median } from '../../model/statistics.js';
import { FWHM_PER_SIGMA } from './band-stars.js';
import { medianInPlace } from './select.js';
import { BOX_REACH, BOXES, Surroundings, type Surrounding } from './surroundings.js';

/** A second image of every star. */
export interface SecondImage {
  /** From a star to its fainter image, px as stored. */
  readonly x: number;
  readonly y: number;
  /** The fainter image's share of the light, at most a half. */
  readonly share: number;
  /** Height above the other offsets, in their spread. */
  readonly significance: number;
}

/** Fewer stars agree by chance. */
const FEWEST_STARS = 8;
/** An offset must be seen beside this fraction of the stars: half of some are outside the strip. */
const SEEN_SHARE = 0.5;
/** This fraction of the stars must show the image, within a factor of two and their noise. */
const AGREEING_SHARE = 0.75;
const AGREEING_SIGMAS = 3;
/** Limits tuned on drawn series with wind, drift, cloud, tilt and coma (docs/dev/accuracy.md). */
const SIGNIFICANCE_MIN = 9.5;
const RATIO_MIN = 0.018;
/** The median of fewer stars than this strays farther than a normal distribution: so much more is asked for each. */
const PLENTY_OF_STARS = 24;
const SIGNIFICANCE_PER_STAR = 0.5;
/** Neighbours this bright do not agree in offset and brightness by chance. */
const PLAIN_RATIO = 0.1;
/** Images that count as about equally bright. */
const EQUAL_RATIO_MIN = 0.15;
/** Nearest second image, in FWHM of the stars: nearer ones draw the stars long, which moments measure. And in boxes. */
const NEAREST = 1;
const NEAREST_EQUAL = 1.3;
const NEAREST_BOXES = 1.8;
/** From here on, in FWHM, the stars' own light is negligible. */
const FAR = 2.5;

/** Frames without noise are drawn, not taken. */
const LEAST_SPREAD = 1e-4;

/** Position of the star in the boxes, and the last box. */
const LAST = BOXES * BOXES - 1;
const MIDDLE = LAST / 2;

/** An offset from the star, in boxes, and how far it stands out. */
interface Found {
  readonly at: number;
  readonly significance: number;
}

export class SecondImageFinder {
  private readonly values = new Float64Array(64);
  /** By offset: median over the stars of the difference to the opposite one, and root of the share that shows it. */
  private readonly signed = new Float64Array(LAST + 1);
  private readonly smooth = new Float64Array(LAST + 1);
  private readonly weights = new Float64Array(LAST + 1);
  private readonly amounts = new Float64Array(LAST + 1);

  /** The second image that all stars share; `undefined` if there is none, or too few stars to tell. */
  find(found: readonly Surrounding[]): SecondImage | undefined {
    // Of an odd number the median is one of them, and its own opposite.
    const stars = found.length % 2 === 0 ? found.slice(1) : found;
    if (stars.length < FEWEST_STARS) return undefined;
    const fwhm = (FWHM_PER_SIGMA * median(stars.map(({ sigma }) => sigma))) / Surroundings.BOX_PX;
    this.medians(stars);
    const nearest = Math.max(NEAREST * fwhm, NEAREST_BOXES);
    const spread = Math.max(this.spreadBeyond(FAR * fwhm) || this.spreadBeyond(nearest), LEAST_SPREAD);
    return (
      this.agreed(stars, this.highest(stars.length, nearest, spread), false) ??
      this.agreed(stars, this.brightest(Math.max(NEAREST_EQUAL * fwhm, NEAREST_BOXES), spread), true)
    );
  }

  private medians(stars: readonly Surrounding[]): void {
    const { signed, smooth, weights, amounts, values } = this;
    const least = Math.max(FEWEST_STARS, SEEN_SHARE * stars.length);
    amounts.fill(0);
    weights.fill(0);
    for (let at = 0; at < MIDDLE; at++) {
      let seen = 0;
      let bright = 0;
      for (let i = 0; i < stars.length; i++) {
        const { boxes, unit } = stars[i] as Surrounding;
        const value = ((boxes[at] as number) - (boxes[LAST - at] as number)) / unit;
        // Outside the strip, and in pixels without a number, a star shows nothing.
        if (value - value !== 0) continue;
        values[seen++] = value;
        if (value > EQUAL_RATIO_MIN || value < -EQUAL_RATIO_MIN) bright++;
      }
      signed[at] = signed[LAST - at] = 0;
      if (seen < least) continue;
      weights[at] = weights[LAST - at] = Math.sqrt(seen / stars.length);
      const middle = medianInPlace(values, seen);
      signed[at] = middle;
      signed[LAST - at] = -middle;
      if (bright * 2 <= seen) continue;
      for (let i = 0; i < seen; i++) values[i] = Math.abs(values[i] as number);
      amounts[at] = amounts[LAST - at] = medianInPlace(values, seen);
    }
    for (let at = BOXES + 1; at < LAST - BOXES; at++) smooth[at] = smoothedAt(signed, at);
  }

  /** Spread of the medians at offsets beyond a distance, which are noise; 0 if there are none. */
  private spreadBeyond(distance: number): number {
    const heights: number[] = [];
    visit(distance, (at) => {
      if (at < MIDDLE && this.weights[at] !== 0) heights.push(Math.abs(this.smooth[at] as number));
    });
    return heights.length === 0 ? 0 : 1.4826 * median(heights);
  }

  /** The offset that stands out most, if it is within the limits. */
  private highest(stars: number, nearest: number, spread: number): Found | undefined {
    let best: Found | undefined;
    visit(nearest, (at) => {
      const height = this.smooth[at] as number;
      if (height < RATIO_MIN) return;
      const weight = this.weights[at] as number;
      const significance = (height / spread) * weight;
      const lacking = height > PLAIN_RATIO ? 0 : Math.max(0, PLENTY_OF_STARS - stars * weight ** 2);
      if (!(significance >= SIGNIFICANCE_MIN + lacking * SIGNIFICANCE_PER_STAR)) return;
      if (significance > (best?.significance ?? SIGNIFICANCE_MIN) && isPeak(this.smooth, at))
        best = { at, significance };
    });
    return best;
  }

  /** The offset at which most stars have a bright neighbour on either side. */
  private brightest(nearest: number, spread: number): Found | undefined {
    let best: Found | undefined;
    visit(nearest, (at) => {
      const significance = (this.amounts[at] as number) / spread;
      if (significance > (best?.significance ?? SIGNIFICANCE_MIN)) best = { at, significance };
    });
    return best;
  }

  /** An offset as a second image, if it stands beside nearly every star that could show it. */
  private agreed(stars: readonly Surrounding[], found: Found | undefined, isEqual: boolean): SecondImage | undefined {
    if (found === undefined) return undefined;
    const { at, significance } = found;
    const seen = stars.flatMap(({ boxes, unit, noise }) => {
      const value = (smoothedAt(boxes, at) - smoothedAt(boxes, LAST - at)) / unit;
      return Number.isNaN(value) ? [] : [{ value, error: (AGREEING_SIGMAS * noise) / unit }];
    });
    const height = isEqual ? median(seen.map(({ value }) => Math.abs(value))) : (this.smooth[at] as number);
    if (isEqual && height < EQUAL_RATIO_MIN) return undefined;
    const agreeing = seen.filter(({ value, error }) => {
      const isAbout = (wanted: number): boolean =>
        (value > 0.5 * wanted - error && value < 2 * wanted + error) ||
        (isEqual && -value > 0.5 * wanted - error && -value < 2 * wanted + error);
      // The fainter image, found as a star itself, has the brighter one opposite.
      const isFainter = -value > 0.5 / height - error && -value < 2 / height + error;
      return isAbout(height) || isFainter || (isEqual && isAbout(1 / height));
    });
    if (seen.length < FEWEST_STARS || agreeing.length < AGREEING_SHARE * seen.length) return undefined;
    const ratio = Math.min(height, 1 / height);
    const { x, y } = centreOf(isEqual ? this.amounts : this.smooth, at);
    const turned = (height > 1 ? -1 : 1) * Surroundings.BOX_PX;
    return { x: turned * x, y: turned * y, share: ratio / (1 + ratio), significance };
  }
}

/** Visits the offsets from a distance on, in boxes. */
function visit(nearest: number, use: (at: number) => void): void {
  const farthest = (BOX_REACH - 0.5) ** 2;
  for (let y = 1 - BOX_REACH; y < BOX_REACH; y++)
    for (let x = 1 - BOX_REACH; x < BOX_REACH; x++) {
      const squared = x * x + y * y;
      if (squared >= nearest * nearest && squared < farthest) use(MIDDLE + y * BOXES + x);
    }
}

/** Whether no neighbour is higher: a shoulder of the star itself is no image. */
function isPeak(map: Float64Array, at: number): boolean {
  for (let j = -BOXES; j <= BOXES; j += BOXES)
    for (let i = -1; i <= 1; i++) if ((map[at + j + i] as number) > (map[at] as number)) return false;
  return true;
}

/** Centre of gravity of 3 × 3 boxes, in boxes from the star. */
function centreOf(map: Float64Array, at: number): { readonly x: number; readonly y: number } {
  let sum = 0;
  let sumX = 0;
  let sumY = 0;
  for (let j = -1; j <= 1; j++)
    for (let i = -1; i <= 1; i++) {
      const value = Math.max(0, map[at + j * BOXES + i] as number);
      sum += value;
      sumX += i * value;
      sumY += j * value;
    }
  return { x: (at % BOXES) - BOX_REACH + sumX / sum, y: Math.floor(at / BOXES) - BOX_REACH + sumY / sum };
}

/** Convolved with [1 2 1; 2 4 2; 1 2 1]/16. */
function smoothedAt(map: Float64Array | Float32Array, at: number): number {
  let sum = 0;
  for (let j = -1; j <= 1; j++) {
    const row = at + j * BOXES;
    const three = (map[row - 1] as number) + 2 * (map[row] as number) + (map[row + 1] as number);
    sum += j === 0 ? 2 * three : three;
  }
  return sum / 16;
}
