/** The overlap of two fields. */
import type { PixelPoint, SensorSize, Similarity } from '../../model/index.js';
import { transform } from './similarity.js';

/** A sensor's corners, the outer edges of its pixels, from the first on along +x. */
export function cornersOf({ width, height }: SensorSize): readonly PixelPoint[] {
  return [
    { x: 0.5, y: 0.5 },
    { x: width + 0.5, y: 0.5 },
    { x: width + 0.5, y: height + 0.5 },
    { x: 0.5, y: height + 0.5 },
  ];
}

/** The part of a convex polygon on a sensor (Sutherland & Hodgman 1974, CACM 17, 32). */
export function clipToSensor(polygon: readonly PixelPoint[], { width, height }: SensorSize): readonly PixelPoint[] {
  const edges: readonly ((p: PixelPoint) => number)[] = [
    (p) => p.x - 0.5,
    (p) => width + 0.5 - p.x,
    (p) => p.y - 0.5,
    (p) => height + 0.5 - p.y,
  ];
  return edges.reduce((corners, inside) => clip(corners, inside), polygon);
}

function clip(corners: readonly PixelPoint[], inside: (p: PixelPoint) => number): readonly PixelPoint[] {
  const kept: PixelPoint[] = [];
  for (const [i, p] of corners.entries()) {
    const before = corners.at(i - 1);
    if (!before) continue;
    const here = inside(p);
    const there = inside(before);
    if (here >= 0 !== there >= 0) {
      const share = there / (there - here);
      kept.push({ x: before.x + share * (p.x - before.x), y: before.y + share * (p.y - before.y) });
    }
    if (here >= 0) kept.push(p);
  }
  return kept;
}

/** Area of a polygon, px². */
export function polygonArea(corners: readonly PixelPoint[]): number {
  let twice = 0;
  for (const [i, p] of corners.entries()) {
    const before = corners.at(i - 1);
    if (before) twice += before.x * p.y - p.x * before.y;
  }
  return Math.abs(twice) / 2;
}

/**
 * The fraction of the first sensor, 0 to 1, that the second sees as well; the similarity leads from the second to the
 * first.
 */
export function sharedField(toFirst: Similarity, first: SensorSize, second: SensorSize): number {
  const there = cornersOf(second).map((p) => transform(toFirst, p));
  return polygonArea(clipToSensor(there, first)) / (first.width * first.height);
}
