/**
 * Star lists drawn from an invented sky with everything known: where the camera looked, what it missed, what it made up.
 */
import type { PixelPoint, SensorSize, Similarity, Star } from '../../../src/model/index.js';
import { centreOf, matrixOf, transform } from '../../../src/stars/registration/similarity.js';
import { uniform } from '../../support/generator/random.js';

export { uniform as randomOf };

/** Normal numbers of mean 0 and deviation 1 (Box & Muller 1958). */
export function normalOf(random: () => number): () => number {
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

export interface SkyStar extends PixelPoint {
  readonly flux: number;
}

/** The invented trains' sensor: 26 MP. */
export const SENSOR: SensorSize = { width: 6248, height: 4176 };
/** Eight strips of rows, 26 % of them together. */
export const STRIPS = Array.from({ length: 8 }, (_, i) => {
  const first = 1 + Math.round(((i + 0.5) * SENSOR.height) / 8 - 68);
  return { first, last: first + 135 };
});

/**
 * A square of sky in arcsec around (0, 0). Counts grow by 10^0.35 a magnitude (common practice, no source): the share
 * of stars brighter than f goes as f^−0.875.
 */
export function skyOf(seed: number, perSquareDegree: number, halfSideArcsec = 6000): SkyStar[] {
  const random = uniform(seed);
  const count = Math.round(perSquareDegree * ((2 * halfSideArcsec) / 3600) ** 2);
  return Array.from({ length: count }, () => ({
    x: (2 * random() - 1) * halfSideArcsec,
    y: (2 * random() - 1) * halfSideArcsec,
    flux: Math.min(3e6, 2000 * (1 - random()) ** (-1 / 0.875)),
  }));
}

export interface Drawing {
  /** Sky (arcsec) to pixels. */
  readonly camera: Similarity;
  readonly size?: SensorSize;
  readonly random: () => number;
  /** Only the brightest so many of what the sensor sees. */
  readonly most?: number;
  /** Share of stars not found. */
  readonly missing?: number;
  /** Detections that are no stars, as a share of the stars. */
  readonly extra?: number;
  /** Positions on the sensor that glow in every frame. */
  readonly hot?: readonly PixelPoint[];
  readonly strips?: boolean;
  /** Light that arrives. */
  readonly transparency?: number;
  /** Scatter of the fluxes, in parts: another filter, another colour of stars. */
  readonly colour?: number;
  readonly noiseless?: boolean;
}

const FWHM = 2.6;
/** Noise of the sky in an aperture, ADU. */
const SKY_NOISE = 80;
const AIR_PX = 0.02;

/** Detections of one frame, in no order of brightness. */
export function drawn(sky: readonly SkyStar[], drawing: Drawing): Star[] {
  const { camera, random, size = SENSOR } = drawing;
  const normal = normalOf(random);
  const m = matrixOf(camera);
  const { transparency = 1, colour = 0 } = drawing;
  const seen = sky
    .map((s) => ({
      x: m.a * s.x + m.b * s.y + m.x0,
      y: m.c * s.x + m.d * s.y + m.y0,
      flux: s.flux * transparency * (colour > 0 ? Math.exp(colour * normal()) : 1),
    }))
    .filter((s) => isOn(s, size) && (!drawing.strips || isInStrip(s)))
    .sort((a, b) => b.flux - a.flux)
    .slice(0, drawing.most ?? Infinity)
    .filter(() => random() >= (drawing.missing ?? 0));
  const stars = seen.map((s) => {
    const snr = s.flux / Math.sqrt(s.flux + SKY_NOISE ** 2);
    const error = drawing.noiseless ? 0 : Math.hypot(FWHM / (2.355 * snr), AIR_PX);
    return starAt({ x: s.x + error * normal(), y: s.y + error * normal() }, s.flux, snr);
  });
  const extras = Array.from({ length: Math.round((drawing.extra ?? 0) * stars.length) }, () => {
    const place = { x: 1 + random() * (size.width - 1), y: 1 + random() * (size.height - 1) };
    return starAt(place, 2000 * (1 - random()) ** -1, 8);
  }).filter((s) => !drawing.strips || isInStrip(s));
  const hot = (drawing.hot ?? [])
    .filter((p) => !drawing.strips || isInStrip(p))
    .map((p) => starAt({ x: p.x + 0.03 * normal(), y: p.y + 0.03 * normal() }, 3000 + 40000 * random(), 25));
  return shuffled([...stars, ...extras, ...hot], random);
}

export function starAt(place: PixelPoint, flux: number, snr: number): Star {
  return {
    x: place.x,
    y: place.y,
    flux,
    snr,
    fwhm: FWHM,
    halfFlux: FWHM / 2,
    elongation: 1.05,
    direction: 30,
    saturated: flux > 1.5e6,
  };
}

function isOn(place: PixelPoint, size: SensorSize): boolean {
  return place.x > 4 && place.x < size.width - 4 && place.y > 4 && place.y < size.height - 4;
}

function isInStrip(place: PixelPoint): boolean {
  return STRIPS.some((s) => place.y > s.first + 4 && place.y < s.last - 4);
}

export function shuffled<T>(values: readonly T[], random: () => number): T[] {
  const out = [...values];
  for (let i = out.length - 1; i > 0; i--) {
    const k = Math.floor(random() * (i + 1));
    [out[i], out[k]] = [out[k]!, out[i]!];
  }
  return out;
}

/** A camera that sees the sky's point `at` in its centre, turned by `rotation`, with so many px an arcsec. */
export function cameraAt(
  at: PixelPoint,
  rotation: number,
  pxPerArcsec: number,
  mirrored = false,
  size: SensorSize = SENSOR,
): Similarity {
  const linear = { x: 0, y: 0, rotation, scale: pxPerArcsec, mirrored };
  const moved = transform(linear, at);
  const centre = centreOf(size);
  return { ...linear, x: centre.x - moved.x, y: centre.y - moved.y };
}

/** Places on a sensor. */
export function placesOf(seed: number, count: number, size: SensorSize = SENSOR): PixelPoint[] {
  const random = uniform(seed);
  return Array.from({ length: count }, () => ({
    x: Math.round(5 + random() * (size.width - 10)),
    y: Math.round(5 + random() * (size.height - 10)),
  }));
}
