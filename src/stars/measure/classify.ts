/** Classifies a component: a star, a blend of several, a defocused ring, a hot pixel, a satellite trail. */
import type { Component, Detector } from './detect.js';
import type { Field } from './moments.js';

export type Find =
  /** Positions of the stars: row × width + column; several in a blend. */
  | { readonly kind: 'star' | 'ring' | 'blend'; readonly places: readonly number[] }
  | { readonly kind: 'hot-pixel' | 'line'; readonly places?: undefined };

/** The neighbours' mean below this fraction of the peak: no optics produce that (prototype's value). */
const HOT_SHARE = 0.12;
/**
 * A star illuminates the nearer neighbour in its row and that in its column. One of 0.8 px FWHM centred on a pixel
 * gives each 0.08 of the peak (D: Gaussian over square pixels), a wider one or one off centre more. A hot pixel
 * illuminates neither, two adjacent ones only one.
 */
const CROSS_SHARE = 0.08;
/** The two neighbours overrule the mean if they exceed noise by this many standard deviations of the sky. */
const CROSS_SIGMAS = 3;
/** A line longer than this and this thin is not a star, px and fraction of a square. */
const LINE_LENGTH = 80;
const LINE_FILL = 0.12;
/** Fewer pixels contain no second distinguishable star. */
const BLEND_PIXELS = 14;
const PEAKS_MAX = 32;
const RING_PIXELS = 60;
/** A hole this deep, relative to the mean of its surroundings, belongs to a ring. */
const RING_DEPTH = 0.75;

export function classify(component: Component, field: Field, detector: Detector): Find {
  const { left, right, top, bottom, count } = component;
  if (isHot(component.peak, component, field)) return { kind: 'hot-pixel' };
  const length = Math.sqrt((right - left + 1) ** 2 + (bottom - top + 1) ** 2);
  if (length > LINE_LENGTH && count < LINE_FILL * length * length) return { kind: 'line' };
  if (count < BLEND_PIXELS) return { kind: 'star', places: [component.peak] };
  const ring = count >= RING_PIXELS ? ringCentre(component, field.width, detector) : undefined;
  if (ring !== undefined) return { kind: 'ring', places: [ring] };
  const peaks = separatePeaks(component, field.width, detector);
  const places = peaks.filter((place) => !isHot(place, component, field));
  return peaks.length > 1 ? { kind: 'blend', places } : { kind: 'star', places: [component.peak] };
}

function isHot(peak: number, { level, noise }: Component, { samples, width, parity }: Field): boolean {
  // Between green pixels the others are interpolated, so one hot pixel raises them too: check the diagonal ones.
  let brightest = peak;
  for (let j = -width; j <= width; j += width)
    for (let i = -1; i <= 1; i++)
      if ((samples[peak + j + i] as number) > (samples[brightest] as number)) brightest = peak + j + i;
  const x = brightest % width;
  if (x < 1 || x >= width - 1 || brightest < width || brightest + width >= samples.length) return false;
  let sum = 0;
  let count = 0;
  for (let j = -1; j <= 1; j++)
    for (let i = -1; i <= 1; i++) {
      if ((i === 0 && j === 0) || (parity !== undefined && (i + j) % 2 !== 0)) continue;
      sum += (samples[brightest + j * width + i] as number) - level;
      count++;
    }
  const top = (samples[brightest] as number) - level;
  const isSharp = sum / count < HOT_SHARE * top;
  if (parity !== undefined) return isSharp;
  const inRow = Math.max(samples[brightest - 1] as number, samples[brightest + 1] as number);
  const inColumn = Math.max(samples[brightest - width] as number, samples[brightest + width] as number);
  const spare = Math.min(inRow, inColumn) - level - CROSS_SHARE * top;
  return spare < (isSharp ? CROSS_SIGMAS : -CROSS_SIGMAS) * noise;
}

/** The centre of a ring: its centroid is in a hole, surrounded by bright pixels. */
function ringCentre(component: Component, width: number, detector: Detector): number | undefined {
  const { pixels, count, level, left, right, top, bottom, peak } = component;
  const middle = ((top + bottom) >> 1) * width + ((left + right) >> 1);
  if (detector.valueAt(middle) - level > RING_DEPTH * (detector.valueAt(peak) - level)) return undefined;

  let sum = 0,
    sumX = 0,
    sumY = 0;
  for (let i = 0; i < count; i++) {
    const at = pixels[i] as number;
    const value = detector.valueAt(at) - level;
    const x = at % width;
    sum += value;
    sumX += value * x;
    sumY += (value * (at - x)) / width;
  }
  const x = Math.round(sumX / sum);
  const y = Math.round(sumY / sum);
  const sectors = new Float64Array(8);
  let farthest = 0;
  for (let i = 0; i < count; i++) {
    const at = pixels[i] as number;
    const dx = (at % width) - x;
    const dy = Math.floor(at / width) - y;
    const sector = Math.floor((Math.atan2(dy, dx) / (2 * Math.PI) + 1) * 8) % 8;
    sectors[sector] = Math.max(sectors[sector] as number, detector.valueAt(at) - level);
    farthest = Math.max(farthest, Math.sqrt(dx * dx + dy * dy));
  }
  const weakest = Math.min(...sectors);
  const centre = y * width + x;
  const hole = holeValue(detector, centre, width, level);
  return hole < RING_DEPTH * weakest && farthest > 4 ? centre : undefined;
}

/** Mean above the level of the convolved values in the centre; missing values count as sky. */
function holeValue(detector: Detector, centre: number, width: number, level: number): number {
  let sum = 0;
  for (let j = -width; j <= width; j += width)
    for (let i = -1; i <= 1; i++) {
      const value = detector.valueAt(centre + j + i);
      sum += Number.isFinite(value) ? Math.max(value - level, 0) : 0;
    }
  return sum / 9;
}

/** Peaks of a component with a significant dip between each and every brighter one, brightest first. */
function separatePeaks(component: Component, width: number, detector: Detector): number[] {
  const { pixels, count, level, noise } = component;
  const maxima: number[] = [];
  for (let i = 0; i < count; i++) {
    const at = pixels[i] as number;
    const value = detector.valueAt(at);
    if (value - level > 6 * noise && isMaximum(detector, at, width, value)) maxima.push(at);
  }
  maxima.sort((a, b) => detector.valueAt(b) - detector.valueAt(a));
  const kept: number[] = [];
  for (const peak of maxima) {
    if (kept.length === PEAKS_MAX) break;
    const value = detector.valueAt(peak);
    // The convolved image's noise is 0.375 of the pixels'; a pessimistic fraction of the photons'.
    const rough = 0.375 * Math.sqrt(noise * noise + 2 * Math.max(0, value - level));
    const dip = Math.max(5 * rough, 0.05 * (value - level));
    if (kept.every((brighter) => lowestBetween(detector, peak, brighter, width) < value - dip)) kept.push(peak);
  }
  return kept;
}

function isMaximum(detector: Detector, at: number, width: number, value: number): boolean {
  for (let j = -width; j <= width; j += width)
    for (let i = -1; i <= 1; i++) {
      if (i === 0 && j === 0) continue;
      const other = detector.valueAt(at + j + i);
      if (other > value || (other === value && j + i < 0)) return false;
    }
  return true;
}

function lowestBetween(detector: Detector, from: number, to: number, width: number): number {
  const x0 = from % width;
  const y0 = (from - x0) / width;
  const x1 = to % width;
  const y1 = (to - x1) / width;
  const steps = Math.max(Math.abs(x1 - x0), Math.abs(y1 - y0));
  let lowest = Infinity;
  for (let step = 1; step < steps; step++) {
    const x = Math.round(x0 + ((x1 - x0) * step) / steps);
    const y = Math.round(y0 + ((y1 - y0) * step) / steps);
    lowest = Math.min(lowest, detector.valueAt(y * width + x));
  }
  return lowest;
}
