/** The surroundings of a frame's brightest stars, kept while its bands pass. */
import { itemAt } from '../../model/collections.js';
import type { Band } from '../pixels/bands.js';
import { isSaturated } from './band-stars.js';
import type { FoundStar } from './found-star.js';

/** Boxes on each side of a star: a second image farther off than 32 px is not looked for. */
export const BOX_REACH = 16;
/** Boxes in a row. */
export const BOXES = 2 * BOX_REACH + 1;
/** More stars tell little more, and cost time. */
const STARS_MAX = 33;
/** The peak of a star above the noise of the sky. */
const SNR_MIN = 8;
/** Noise of the smoothed difference of two boxes, in that of a pixel: 0.375·√2, and 1/2 for the mean of four. */
const NOISE_SHARE = 0.265;

/** A star and what is around it. */
export interface Surrounding {
  /** Means of 2 × 2 px less the sky, `BOXES` × `BOXES`; the star in the middle. NaN outside the strip. */
  readonly boxes: Float32Array;
  /** The star's own height in them, and the noise of the difference of two, smoothed. */
  unit: number;
  noise: number;
  snr: number;
  /** The star's own standard deviation, px. */
  sigma: number;
}

/** Collects the brightest stars of a frame, band by band, in reusable memory. */
export class Surroundings {
  /** Side of a box, px. */
  static readonly BOX_PX = 2;
  private readonly slots: Surrounding[] = [];
  private count = 0;

  begin(): void {
    this.count = 0;
  }

  add(stars: readonly FoundStar[], band: Band, width: number, saturation: number): void {
    const side = BOXES * Surroundings.BOX_PX;
    for (const star of stars) {
      const { kind, moments, level, noise, peak } = star;
      const snr = (peak - level) / noise;
      if (kind === 'ring' || moments === undefined || !(snr > SNR_MIN) || isSaturated(star, saturation)) continue;
      const left = Math.floor(star.x) - BOX_REACH * Surroundings.BOX_PX;
      if (left < 0 || left + side > width) continue;
      const slot = this.slotFor(snr);
      if (slot === undefined) continue;
      fill(slot.boxes, band, width, left, Math.floor(star.y) - band.first - BOX_REACH * Surroundings.BOX_PX, level);
      slot.unit = heightOf(slot.boxes);
      slot.noise = NOISE_SHARE * noise;
      slot.snr = slot.unit > 0 ? snr : 0;
      slot.sigma = Math.max(moments.xx * moments.yy - moments.xy ** 2, 0.01) ** 0.25;
    }
  }

  /** Valid until the next frame begins. */
  all(): readonly Surrounding[] {
    return this.slots.slice(0, this.count).filter(({ snr }) => snr > 0);
  }

  /** A free place, or that of the faintest star if this one is brighter. */
  private slotFor(snr: number): Surrounding | undefined {
    if (this.count < STARS_MAX) {
      const free = this.slots[this.count] ?? emptySlot();
      this.slots[this.count++] = free;
      return free;
    }
    let faintest = itemAt(this.slots, 0);
    for (const slot of this.slots) if (slot.snr < faintest.snr) faintest = slot;
    return faintest.snr < snr ? faintest : undefined;
  }
}

const emptySlot = (): Surrounding => ({
  boxes: new Float32Array(BOXES * BOXES),
  unit: 0,
  noise: 0,
  snr: 0,
  sigma: 0,
});

function fill(
  boxes: Float32Array,
  { samples, first, end }: Band,
  width: number,
  left: number,
  top: number,
  level: number,
): void {
  for (let row = 0; row < BOXES; row++) {
    const y = top + 2 * row;
    const start = row * BOXES;
    // Of stars near the edge of a strip one half is seen.
    if (y < 0 || y + 2 > end - first) {
      boxes.fill(Number.NaN, start, start + BOXES);
      continue;
    }
    let at = y * width + left;
    for (let column = 0; column < BOXES; column++, at += 2)
      boxes[start + column] =
        ((samples[at] as number) +
          (samples[at + 1] as number) +
          (samples[at + width] as number) +
          (samples[at + width + 1] as number)) /
          4 -
        level;
  }
}

/** The star's own box with its neighbours, as all others are smoothed. */
function heightOf(boxes: Float32Array): number {
  const middle = (BOXES * BOXES - 1) / 2;
  let sum = 0;
  for (let j = -1; j <= 1; j++)
    for (let i = -1; i <= 1; i++) sum += (2 - Math.abs(j)) * (2 - Math.abs(i)) * itemAt(boxes, middle + j * BOXES + i);
  return sum / 16;
}
