/** Small pictures of the same stars in several frames, and a small picture of a whole frame: grey, 8 bits. */
import { itemAt } from '../model/collections.js';
import type { Star } from '../model/index.js';
import { median, quantile } from '../model/statistics.js';
import { reasonOf } from './not-measured.js';
import type { Samples } from './pixels/bands.js';
import { openPixels, PixelMemory } from './pixels/open.js';
import type { FrameToMeasure } from './types.js';

/** Grey values row by row, in drawing order: the first stored row is the last, as north is up. */
export interface GreyPicture {
  readonly width: number;
  readonly height: number;
  readonly grey: Uint8Array;
}

export type Pictured<T> = T | { readonly reason: string };

/** Samples around positions, in order, before stretching; `null` for a position beyond the frame's edge. */
export interface Stamps {
  readonly side: number;
  readonly stamps: readonly (Float64Array | null)[];
}

/** Centre of a star's cutout, px from 1 in the frame as stored. */
export type Place = Pick<Star, 'x' | 'y'>;

/**
 * Cuts square stamps around positions in one frame.
 *
 * @param side px of a stamp, odd
 */
export async function cutOuts(
  frame: FrameToMeasure,
  places: readonly Place[],
  side: number,
): Promise<Pictured<Stamps>> {
  const half = side >> 1;
  const order = places.map((place, index) => ({ index, x: Math.round(place.x) - 1, y: Math.round(place.y) - 1 }));
  order.sort((a, b) => a.y - b.y);
  const stamps: (Float64Array | null)[] = places.map(() => null);
  try {
    const pixels = await openPixels(frame.path, new PixelMemory());
    try {
      const { width, height } = pixels.shape;
      const inside = order.filter(({ x, y }) => x >= half && y >= half && x < width - half && y < height - half);
      const spans = inside.map(({ y }) => ({ first: y - half, end: y + half + 1, from: y - half, to: y + half + 1 }));
      let next = 0;
      for await (const band of pixels.bands(spans)) {
        const place = inside[next++];
        if (place !== undefined) stamps[place.index] = stampOf(band.samples, width, place.x - half, side);
      }
    } finally {
      pixels.close();
    }
  } catch (error) {
    return { reason: reasonOf(error) };
  }
  return { side, stamps };
}

function stampOf(samples: Samples, width: number, left: number, side: number): Float64Array {
  const stamp = new Float64Array(side * side);
  for (let row = 0; row < side; row++)
    for (let column = 0; column < side; column++)
      stamp[(side - 1 - row) * side + column] = samples[row * width + left + column] as number;
  return stamp;
}

/**
 * Stretches the stamps of several frames identically: each one's sky black, the brightest star's peak white, by the
 * square root, which shows wings. One range for all, so that a star that is fainter, or spread over more pixels, looks
 * like it.
 */
export function stretchedAlike(frames: readonly Stamps[]): (GreyPicture | null)[][] {
  const levels = frames.map(({ stamps }) =>
    stamps.map((stamp) => {
      const known = stamp === null ? [] : [...stamp].filter(Number.isFinite);
      return { sky: quantile(known, 0.3), top: quantile(known, 0.998) };
    }),
  );
  const range = Math.max(
    1e-9,
    ...levels
      .flat()
      .map(({ sky, top }) => top - sky)
      .filter(Number.isFinite),
  );
  return frames.map(({ side, stamps }, n) =>
    stamps.map((stamp, index) => {
      if (stamp === null) return null;
      const sky = itemAt(itemAt(levels, n), index).sky;
      return {
        width: side,
        height: side,
        grey: Uint8Array.from(stamp, (value) => grey(Math.sqrt(Math.max(0, (value - sky) / range)))),
      };
    }),
  );
}

function grey(share: number): number {
  return share > 0 ? Math.min(255, Math.round(255 * share)) : 0;
}

/** Grey level of the sky, and the fraction of pixels that may saturate. */
const SKY_GREY = 0.12;
const TOP_SHARE = 0.9995;

/**
 * A whole frame, binned by the mean of whole blocks of pixels and stretched: the sky dark grey, faint light lifted by
 * an inverse hyperbolic sine (Lupton et al. 2004, PASP 116, 133).
 *
 * @param widest px; the picture is at most so wide and high
 */
export async function wholePicture(frame: FrameToMeasure, widest: number): Promise<Pictured<GreyPicture>> {
  try {
    const pixels = await openPixels(frame.path, new PixelMemory());
    try {
      const { width, height } = pixels.shape;
      // Blocks of even size keep the colours of a mosaic together.
      const block = 2 * Math.max(1, Math.ceil(Math.max(width, height) / widest / 2));
      const columns = Math.floor(width / block);
      const rows = Math.floor(height / block);
      if (columns < 1 || rows < 1) return { reason: 'it is too small for a picture' };
      const means = new Float64Array(columns * rows);
      const spans = Array.from({ length: rows }, (_, row) => {
        const from = row * block;
        return { first: from, end: from + block, from, to: from + block };
      });
      let row = rows - 1;
      for await (const band of pixels.bands(spans))
        meansOf(band.samples, width, block, means.subarray(row * columns, (row-- + 1) * columns));
      return { width: columns, height: rows, grey: stretched(means) };
    } finally {
      pixels.close();
    }
  } catch (error) {
    return { reason: reasonOf(error) };
  }
}

function meansOf(samples: Samples, width: number, block: number, out: Float64Array): void {
  for (let column = 0; column < out.length; column++) {
    let sum = 0;
    for (let y = 0; y < block; y++) {
      const start = y * width + column * block;
      for (let x = 0; x < block; x++) sum += samples[start + x] as number;
    }
    out[column] = sum / (block * block);
  }
}

function stretched(means: Float64Array): Uint8Array {
  const known = [...means].filter(Number.isFinite);
  const sky = median(known);
  const spread = 1.4826 * median(known.map((value) => Math.abs(value - sky)));
  const top = Math.max(quantile(known, TOP_SHARE), sky + 1e-9);
  const soft = Math.max(spread, (top - sky) * 1e-4, 1e-12);
  const scale = Math.asinh((top - sky) / (3 * soft));
  return Uint8Array.from(means, (value) => {
    const lifted = Math.asinh((value - sky) / (3 * soft)) / scale;
    return grey(SKY_GREY + (1 - SKY_GREY) * lifted);
  });
}
