/** Draws frames of stars whose truth is known. Shares no code with the program. */
import { type Random, seeded } from '../generator/random.js';

/** A star's light over the plane, before the pixels; its sum is the flux. */
export type Profile =
  | { readonly kind: 'gaussian'; readonly fwhm: number }
  | { readonly kind: 'moffat'; readonly fwhm: number; readonly beta: number }
  /** Light between two radii, softened by a Gaussian: a defocused star behind a secondary mirror. */
  | { readonly kind: 'ring'; readonly inner: number; readonly outer: number; readonly soft: number };

export interface DrawnShape {
  readonly profile: Profile;
  /** a/b; the geometric mean of both widths is the profile's FWHM. */
  readonly elongation?: number;
  /** Of the long axis, degrees from +x towards +y. */
  readonly direction?: number;
  /** Movement during the exposure: offsets in px and their shares of the time. */
  readonly path?: readonly { readonly x: number; readonly y: number; readonly share: number }[];
}

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
  readonly electronsPerAdu: number;
  /** Electrons. */
  readonly readNoise: number;
  /** ADU at which pixels saturate. */
  readonly full?: number;
  readonly seed: number;
  /** `point` takes the profile at the pixel's centre instead of its mean over the pixel. */
  readonly pixel?: 'area' | 'point';
}

const FWHM_PER_SIGMA = Math.sqrt(8 * Math.LN2);

/** Values of a frame, ADU, with noise; whole numbers. */
export function drawFrame(frame: DrawnFrame): Float64Array {
  const { width, height, background, gradient = 0, electronsPerAdu, readNoise, full = 65_535 } = frame;
  const values = sharedLight(frame).slice();
  const random = seeded(frame.seed);
  for (let at = 0; at < values.length; at++) {
    const expected = (values[at] ?? 0) + background + gradient * ((at % width) / width - 0.5);
    const electrons = poisson(random, expected * electronsPerAdu) + random.normal(0, readNoise);
    values[at] = Math.min(full, Math.max(0, Math.round(electrons / electronsPerAdu)));
  }
  if (values.length !== width * height) throw new RangeError('a frame of another size');
  return values;
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
  const light = lightOf(frame);
  lights.set(frame.stars, { frame, light });
  return light;
}

/** The stars' light alone, without noise. */
export function lightOf({ width, height, stars, shape, pixel = 'area' }: DrawnFrame): Float64Array {
  const values = new Float64Array(width * height);
  const reach = reachOf(shape);
  const split = pixel === 'point' ? 1 : 5;
  const near2 = (6 * widthOf(shape.profile)) ** 2;
  const brightness = brightnessOf(shape);
  for (const star of stars) {
    const x0 = Math.max(0, Math.floor(star.x - reach));
    const x1 = Math.min(width - 1, Math.ceil(star.x + reach));
    const y0 = Math.max(0, Math.floor(star.y - reach));
    const y1 = Math.min(height - 1, Math.ceil(star.y + reach));
    for (let y = y0; y <= y1; y++)
      for (let x = x0; x <= x1; x++) {
        let sum = 0;
        const parts = (x - star.x) ** 2 + (y - star.y) ** 2 < near2 ? split : 1;
        for (let j = 0; j < parts; j++)
          for (let i = 0; i < parts; i++)
            sum += brightness(x - star.x + (i + 0.5) / parts - 0.5, y - star.y + (j + 0.5) / parts - 0.5);
        values[y * width + x] = (values[y * width + x] ?? 0) + (star.flux * sum) / (parts * parts);
      }
  }
  return values;
}

/** Light per px² at an offset from the star, for a flux of 1. */
export function brightnessOf(shape: DrawnShape): (dx: number, dy: number) => number {
  const { elongation = 1, direction = 0, path = [{ x: 0, y: 0, share: 1 }] } = shape;
  const radial = radialOf(shape.profile);
  const cos = Math.cos((direction * Math.PI) / 180);
  const sin = Math.sin((direction * Math.PI) / 180);
  const stretch = Math.sqrt(elongation);
  return (dx, dy) => {
    let sum = 0;
    for (const step of path) {
      const x = dx - step.x;
      const y = dy - step.y;
      const along = (x * cos + y * sin) / stretch;
      const across = (-x * sin + y * cos) * stretch;
      sum += step.share * radial(along * along + across * across);
    }
    return sum;
  };
}

/** Light by the square of the distance, px². */
function radialOf(profile: Profile): (square: number) => number {
  switch (profile.kind) {
    case 'gaussian': {
      const variance = (profile.fwhm / FWHM_PER_SIGMA) ** 2;
      return (square) => Math.exp(-square / (2 * variance)) / (2 * Math.PI * variance);
    }
    case 'moffat': {
      const { beta } = profile;
      const alpha2 = (profile.fwhm / 2) ** 2 / (2 ** (1 / beta) - 1);
      const peak = (beta - 1) / (Math.PI * alpha2);
      const power = inversePower(beta);
      return (square) => peak * power(1 + square / alpha2);
    }
    case 'ring': {
      const { inner, outer, soft } = profile;
      const edge = (r: number, at: number): number => 1 / (1 + Math.exp((r - at) / soft));
      const height = 1 / (Math.PI * (outer ** 2 - inner ** 2));
      return (square) => {
        const r = Math.sqrt(square);
        return height * (edge(r, outer) - edge(r, inner));
      };
    }
  }
}

/** x to the power of −β; by products and a root where β is half a whole number, which takes a sixth of the time. */
function inversePower(beta: number): (x: number) => number {
  if (!Number.isInteger(2 * beta)) return (x) => x ** -beta;
  const whole = Math.floor(beta);
  const isHalf = whole !== beta;
  return (x) => {
    const inverse = 1 / x;
    let power = isHalf ? Math.sqrt(inverse) : 1;
    for (let i = 0; i < whole; i++) power *= inverse;
    return power;
  };
}

function widthOf(profile: Profile): number {
  return profile.kind === 'ring' ? profile.outer : profile.fwhm;
}

function reachOf({ profile, elongation = 1, path = [] }: DrawnShape): number {
  const moved = Math.max(0, ...path.map(({ x, y }) => Math.hypot(x, y)));
  const wide = profile.kind === 'moffat' ? 14 : 4;
  return Math.sqrt(elongation) * wide * widthOf(profile) + moved + 2;
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

/** Steps of a uniform movement of a length and direction, px and degrees, around the middle. */
export function straightPath(length: number, direction: number, steps = 25): NonNullable<DrawnShape['path']> {
  const angle = (direction * Math.PI) / 180;
  return Array.from({ length: steps }, (_, step) => {
    const along = length * ((step + 0.5) / steps - 0.5);
    return { x: along * Math.cos(angle), y: along * Math.sin(angle), share: 1 / steps };
  });
}

/** The FWHM as recorded: of the light averaged over pixels, and around the star for each radius. Round shapes only. */
export function recordedFwhm(profile: Profile): number {
  const brightness = brightnessOf({ profile });
  const average = (radius: number): number => {
    let sum = 0;
    for (let angle = 0; angle < 16; angle++) {
      const x = radius * Math.cos((angle * Math.PI) / 8 + 0.1);
      const y = radius * Math.sin((angle * Math.PI) / 8 + 0.1);
      for (let j = -4; j <= 4; j++) for (let i = -4; i <= 4; i++) sum += brightness(x + i / 9, y + j / 9);
    }
    return sum;
  };
  const half = average(0) / 2;
  let low = 0;
  let high = 4 * widthOf(profile);
  for (let round = 0; round < 50; round++) {
    const middle = (low + high) / 2;
    if (average(middle) > half) low = middle;
    else high = middle;
  }
  return low + high;
}

function poisson(random: Random, mean: number): number {
  if (mean <= 0) return 0;
  if (mean > 60) return Math.round(random.normal(mean, Math.sqrt(mean)));
  const limit = Math.exp(-mean);
  let count = 0;
  for (let product = random.next(); product > limit; product *= random.next()) count++;
  return count;
}
