/** Draws frames of stars whose truth is known. Shares no code with the program. */
import { type Random, seeded } from '../generator/random.js';
import { brightnessOf, coreOf, type DrawnShape, FWHM_PER_SIGMA, reachOf, widthOf } from './shapes.js';

export { brightnessOf, type DrawnShape, type Profile, recordedFwhm, straightPath } from './shapes.js';

export interface DrawnStar {
  /** From 0 in the frame; the record counts from 1. */
  readonly x: number;
  readonly y: number;
  /** ADU. */
  readonly flux: number;
}

export interface DrawnFrame {
  readonly width: number;
  readonly height: number;
  readonly stars: readonly DrawnStar[];
  readonly shape: DrawnShape;
  readonly background: number;
  /** ADU across the frame's width. */
  readonly gradient?: number;
  /** Share of the stars' light that comes through; all of it where absent. */
  readonly clear?: number;
  readonly electronsPerAdu: number;
  /** Electrons. */
  readonly readNoise: number;
  /** ADU at which pixels saturate. */
  readonly full?: number;
  readonly seed: number;
  /** `point` takes the profile at the pixel's centre instead of its mean over the pixel. */
  readonly pixel?: 'area' | 'point';
}

/** Values of a frame, ADU, with noise; whole numbers. The same for ever: samples are drawn so, and frames that others read. */
export function drawFrame(frame: DrawnFrame): Float64Array {
  const { width, height, background, gradient = 0, clear = 1, electronsPerAdu, readNoise, full = 65_535 } = frame;
  const values = sharedLight(frame).slice();
  const random = seeded(frame.seed);
  for (let at = 0; at < values.length; at++) {
    const expected = clear * (values[at] ?? 0) + background + gradient * ((at % width) / width - 0.5);
    const electrons = poisson(random, expected * electronsPerAdu) + random.normal(0, readNoise);
    values[at] = Math.min(full, Math.max(0, Math.round(electrons / electronsPerAdu)));
  }
  if (values.length !== width * height) throw new RangeError('a frame of another size');
  return values;
}

/**
 * A frame as {@link drawFrame} draws it, in a third of the time: the noise of photons, where they are more than 60, and
 * that of reading are one normal deviate a pixel, from a stock that begins elsewhere for each seed.
 */
export function drawQuickly(frame: DrawnFrame): Float64Array {
  const { width, background, gradient = 0, clear = 1, electronsPerAdu, readNoise, full = 65_535 } = frame;
  const light = sharedLight(frame);
  const values = new Float64Array(light.length);
  const random = seeded(frame.seed);
  const normals = stockOfNormals();
  const last = normals.length - 1;
  let next = random.whole(0, STOCK - 1);
  // Most pixels are of the sky alone, which is the same in all of them where it has no gradient.
  const sky = background * electronsPerAdu;
  const skyNoise = Math.sqrt(sky + readNoise * readNoise);
  const isEven = gradient === 0 && sky > MANY;
  for (let at = 0; at < values.length; at++) {
    if (isEven && light[at] === 0) {
      const electrons = sky + skyNoise * normals[next++ & last]!;
      values[at] = Math.min(full, Math.max(0, Math.round(electrons / electronsPerAdu)));
      continue;
    }
    const expected = clear * (light[at] ?? 0) + background + gradient * ((at % width) / width - 0.5);
    const mean = expected * electronsPerAdu;
    const deviate = normals[next++ & last]!;
    const electrons =
      mean > MANY
        ? mean + Math.sqrt(mean + readNoise * readNoise) * deviate
        : poisson(random, mean) + readNoise * deviate;
    values[at] = Math.min(full, Math.max(0, Math.round(electrons / electronsPerAdu)));
  }
  return values;
}

/** More normal deviates than most frames have pixels: a power of two. */
const STOCK = 2 ** 19;
let stock: Float64Array | undefined;

function stockOfNormals(): Float64Array {
  const random = seeded(20261014);
  if (stock === undefined) {
    stock = new Float64Array(STOCK);
    for (let i = 0; i < STOCK; i++) stock[i] = random.normal(0, 1);
  }
  return stock;
}

interface KnownLight {
  readonly frame: DrawnFrame;
  readonly light: Float64Array;
}

/** The light drawn last of each field. */
const lights = new WeakMap<readonly DrawnStar[], KnownLight>();

/** The light of a frame, kept for the next one with the same stars and shape: it may differ in its noise alone. */
function sharedLight(frame: DrawnFrame): Float64Array {
  const known = lights.get(frame.stars);
  const isSame = (['width', 'height', 'shape', 'pixel'] as const).every((key) => known?.frame[key] === frame[key]);
  if (known !== undefined && isSame) return known.light;
  const light = lightOf(frame, { isQuick: true });
  lights.set(frame.stars, { frame, light });
  return light;
}

/**
 * The stars' light alone, without noise. Pixels are averaged over 25 places.
 *
 * @param isQuick over four places in a star's wings, which takes a third of the time: they differ by less than a
 *   thousandth of the star's light
 */
export function lightOf(frame: DrawnFrame, { isQuick = false } = {}): Float64Array {
  const { width, height, stars, shape, pixel = 'area' } = frame;
  if (pixel === 'area' && shape.profile.kind === 'gaussian' && (shape.elongation ?? 1) === 1)
    return gaussianLight(frame, shape.profile.fwhm);
  const values = new Float64Array(width * height);
  const reach = reachOf(shape);
  const split = pixel === 'point' ? 1 : 5;
  const near2 = (6 * widthOf(shape.profile)) ** 2;
  const core2 = isQuick ? coreOf(shape) ** 2 : near2;
  const wings = Math.min(split, 2);
  const brightness = brightnessOf(shape);
  for (const star of stars) {
    const x0 = Math.max(0, Math.floor(star.x - reach));
    const x1 = Math.min(width - 1, Math.ceil(star.x + reach));
    const y0 = Math.max(0, Math.floor(star.y - reach));
    const y1 = Math.min(height - 1, Math.ceil(star.y + reach));
    for (let y = y0; y <= y1; y++)
      for (let x = x0; x <= x1; x++) {
        let sum = 0;
        const square = (x - star.x) ** 2 + (y - star.y) ** 2;
        const parts = square < core2 ? split : square < near2 ? wings : 1;
        for (let j = 0; j < parts; j++)
          for (let i = 0; i < parts; i++)
            sum += brightness(x - star.x + (i + 0.5) / parts - 0.5, y - star.y + (j + 0.5) / parts - 0.5);
        values[y * width + x] = (values[y * width + x] ?? 0) + (star.flux * sum) / (parts * parts);
      }
  }
  return values;
}

/** Light of round Gaussians: along a pixel's row and along its column are averaged each by itself. */
function gaussianLight({ width, height, stars, shape }: DrawnFrame, fwhm: number): Float64Array {
  const { path = [{ x: 0, y: 0, share: 1 }] } = shape;
  const values = new Float64Array(width * height);
  const variance = (fwhm / FWHM_PER_SIGMA) ** 2;
  const reach = 4 * fwhm + 2;
  /** Mean over each pixel from the first to the last of a line. */
  const along = (first: number, last: number, at: number): Float64Array => {
    const line = new Float64Array(Math.max(0, last - first + 1));
    for (let n = 0; n < line.length; n++) {
      let sum = 0;
      for (let i = 0; i < 5; i++) sum += Math.exp(-((first + n - at + (i + 0.5) / 5 - 0.5) ** 2) / (2 * variance));
      line[n] = sum / 5;
    }
    return line;
  };
  for (const star of stars)
    for (const step of path) {
      const [atX, atY] = [star.x + step.x, star.y + step.y];
      const x0 = Math.max(0, Math.floor(atX - reach));
      const y0 = Math.max(0, Math.floor(atY - reach));
      const row = along(x0, Math.min(width - 1, Math.ceil(atX + reach)), atX);
      const column = along(y0, Math.min(height - 1, Math.ceil(atY + reach)), atY);
      const peak = (star.flux * step.share) / (2 * Math.PI * variance);
      for (let y = 0; y < column.length; y++) {
        const there = peak * (column[y] ?? 0);
        const start = (y0 + y) * width + x0;
        for (let x = 0; x < row.length; x++) values[start + x] = (values[start + x] ?? 0) + there * (row[x] ?? 0);
      }
    }
  return values;
}

/** Stars on a jittered grid, so that none touches another; fluxes spread evenly in magnitude. */
export function scatter(
  random: Random,
  frame: { width: number; height: number },
  spacing: number,
  flux: { from: number; to: number },
): DrawnStar[] {
  const stars: DrawnStar[] = [];
  for (let y = spacing; y < frame.height - spacing; y += spacing)
    for (let x = spacing; x < frame.width - spacing; x += spacing)
      stars.push({
        x: x + (random.next() - 0.5) * spacing * 0.3,
        y: y + (random.next() - 0.5) * spacing * 0.3,
        flux: flux.from * (flux.to / flux.from) ** random.next(),
      });
  return stars;
}

/** Photons whose number is as good as normal. */
const MANY = 60;

function poisson(random: Random, mean: number): number {
  if (mean <= 0) return 0;
  if (mean > MANY) return Math.round(random.normal(mean, Math.sqrt(mean)));
  const limit = Math.exp(-mean);
  let count = 0;
  for (let product = random.next(); product > limit; product *= random.next()) count++;
  return count;
}
