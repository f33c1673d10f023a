/** From sensor pixels to positions in a drawing: to scale, the first pixel lower left, as in FITS. */
import type { PixelPoint } from '../../model/index.js';

/** A drawing's size, user units. */
export interface Room {
  readonly width: number;
  readonly height: number;
  /** Margin on each side for labels. */
  readonly margin: number;
}

/** Mapping of pixels to the drawing. */
export interface Paper {
  readonly height: number;
  /** User units per pixel. */
  readonly scale: number;
  x(px: number): number;
  y(px: number): number;
  /** `x,y x,y …` of a polygon's corners. */
  points(corners: readonly PixelPoint[]): string;
}

/** Fits points into a space; the height shrinks to what they need. */
export function paperFor(points: readonly PixelPoint[], { width, height, margin }: Room): Paper {
  const xs = points.map((p) => p.x);
  const ys = points.map((p) => p.y);
  const [west, east] = [Math.min(...xs), Math.max(...xs)];
  const [south, north] = [Math.min(...ys), Math.max(...ys)];
  const scale = Math.min(
    (width - 2 * margin) / Math.max(east - west, 1e-6),
    (height - 2 * margin) / Math.max(north - south, 1e-6),
  );
  const used = (north - south) * scale + 2 * margin;
  const x = (px: number): number => tidy(width / 2 + (px - (west + east) / 2) * scale);
  const y = (px: number): number => tidy(used / 2 - (px - (south + north) / 2) * scale);
  return {
    height: tidy(used),
    scale,
    x,
    y,
    points: (corners) => corners.map((p) => `${x(p.x)},${y(p.y)}`).join(' '),
  };
}

/** A hundredth of a unit is finer than any screen. */
export function tidy(value: number): number {
  return Math.round(value * 100) / 100 + 0;
}

/** The roundest length (1, 2 or 5 by a power of ten) that is not longer than this. */
export function roundLength(most: number): number {
  const power = 10 ** Math.floor(Math.log10(most));
  return ([5, 2, 1].find((step) => step * power <= most) ?? 1) * power;
}
