/**
 * A night of two trains drawn as aims and as star lists, with flexure, rotation and dithers known.
 */
import type { Aim, PixelPoint } from '../../../src/model/index.js';
import type { FrameToRegister } from '../../../src/stars/registration/index.js';
import { cameraAt, drawn, normalOf, randomOf, type SkyStar } from '../registration/drawn-sky.js';

export const NIGHT_MS = Date.UTC(2026, 9, 14, 19, 0, 0);
export const HOUR_MS = 3_600_000;
/** Arcsec per px of heron (3.76 µm at 480 mm) and wren (at 600 mm): 206.265·µm/mm. */
export const HERON_SCALE = 1.6157;
export const WREN_SCALE = 1.2926;

export interface NightPlan {
  readonly seed: number;
  readonly hours: number;
  /** Companion's flexure on the sky, arcsec an hour. */
  readonly flexure: PixelPoint;
  readonly rotationDegPerHour: number;
  /** Frames between dithers. */
  readonly every: number;
  /** When the mount is flipped, hours from the start. */
  readonly flipAtHour?: number;
  readonly subSeconds?: number;
}

export interface Exposure {
  readonly startMs: number;
  readonly seconds: number;
  /** Where the pilot looked on the sky, arcsec. */
  readonly at: PixelPoint;
  readonly flipped: boolean;
  readonly rotation: number;
  readonly key: string;
}

/** Exposures of pilot and companion, and when the mount was dithered. */
export function exposuresOf(plan: NightPlan): {
  readonly pilot: readonly Exposure[];
  readonly companion: readonly Exposure[];
  readonly dithersMs: readonly number[];
} {
  const random = randomOf(plan.seed);
  const normal = normalOf(random);
  const seconds = plan.subSeconds ?? 170;
  const pilot: Exposure[] = [];
  const companion: Exposure[] = [];
  const dithersMs: number[] = [];
  let place = { x: 0, y: 0 };
  const count = Math.floor((plan.hours * 3600) / (seconds + 10));
  for (let i = 0; i < count; i++) {
    const startMs = NIGHT_MS + i * (seconds + 10) * 1000;
    if (i > 0 && i % plan.every === 0) {
      dithersMs.push(startMs - 6000);
      place = { x: (random() - 0.5) * 24, y: (random() - 0.5) * 24 };
    }
    const hours = (startMs - NIGHT_MS) / HOUR_MS;
    const flipped = hours >= (plan.flipAtHour ?? Infinity);
    // Guiding leaves a tenth of an arcsec from sub to sub, in both trains alike.
    const at = { x: place.x + 0.1 * normal(), y: place.y + 0.1 * normal() };
    const rotation = plan.rotationDegPerHour * hours + (flipped ? 180 : 0);
    const shot = { startMs, seconds, flipped, rotation };
    pilot.push({ ...shot, at, key: `heron-${i}` });
    const middle = hours + seconds / 7200;
    const bent = flipped ? -1 : 1;
    companion.push({
      ...shot,
      startMs: startMs + 1500,
      at: { x: at.x + bent * plan.flexure.x * middle, y: at.y + bent * plan.flexure.y * middle },
      key: `wren-${i}`,
    });
  }
  return { pilot, companion, dithersMs };
}

/** Star lists of a train's exposures. */
export function frameLists(
  sky: readonly SkyStar[],
  exposures: readonly Exposure[],
  train: { readonly turn: number; readonly scaleArcsec: number; readonly mirrored?: boolean; readonly most: number },
  seed: number,
): FrameToRegister[] {
  const random = randomOf(seed);
  return exposures.map((e) => ({
    key: e.key,
    startMs: e.startMs,
    by: 'full',
    fwhm: 2.6,
    stars: drawn(sky, {
      camera: cameraAt(e.at, train.turn + e.rotation, 1 / train.scaleArcsec, train.mirrored),
      random,
      most: train.most,
      missing: 0.1,
      extra: 0.05,
    }),
  }));
}

/** Aims without stars between: px with a normal error. */
export function aimsOfPlaces(
  places: readonly PixelPoint[],
  options: {
    readonly every?: number;
    readonly noisePx?: number;
    readonly seed?: number;
    readonly seconds?: number;
  } = {},
): Aim[] {
  const normal = normalOf(randomOf(options.seed ?? 1));
  const { every = 1, noisePx = 0, seconds = 170 } = options;
  return places.flatMap((p, place) =>
    Array.from({ length: every }, (_, k) => ({
      key: `${place}-${k}`,
      startMs: NIGHT_MS + (place * every + k) * (seconds + 10) * 1000,
      seconds,
      flipped: false,
      rotationDeg: 0,
      fwhm: 2.6,
      elongation: 1.05,
      x: p.x + noisePx * normal(),
      y: p.y + noisePx * normal(),
    })),
  );
}

/** Dithers between the places of `aimsOfPlaces`. */
export function movesBetween(count: number, every: number, seconds = 170): number[] {
  return Array.from({ length: count - 1 }, (_, i) => NIGHT_MS + (i + 1) * every * (seconds + 10) * 1000 - 5000);
}
