/** Sensor artefacts that stay while the stars move: hot pixels that passed for stars. */
import { itemAt, numbersOf } from '../../model/collections.js';
import type { PixelPoint } from '../../model/index.js';
import type { FrameToRegister } from './frames.js';
import { type Grid, gridOf, nearest } from './grid.js';
import { referenceOf, register, SAME_TRAIN } from './register.js';
import { transform } from './similarity.js';
import { type StarList, starListOf } from './star-list.js';

/** Number of frames examined, spread over the night. */
const SAMPLE = 12;
const FEWEST_FRAMES = 4;
/** A hot pixel is found at the same position to within this, px. */
const STILL_PX = 0.4;
/** It is present in most frames; in fewer it could be a star of an undithered run. */
const LEAST_SHARE = 0.75;
/** The stars have moved when at most this share of them is still where it was. */
const STAYED = 0.2;
const MOVED_PX = 1.5;
const FEWEST_OTHERS = 10;

/**
 * Positions at which most frames of a train, over all its targets, have a detection although their other stars moved.
 * Empty if nothing moved: then stars and hot pixels are indistinguishable by position.
 */
export function sensorFixed(frames: readonly FrameToRegister[]): readonly PixelPoint[] {
  const inTime = [...frames].sort((a, b) => a.startMs - b.startMs || (a.key < b.key ? -1 : 1));
  const count = Math.min(SAMPLE, inTime.length);
  const sample = Array.from({ length: count }, (_, i) => inTime[Math.floor(((i + 0.5) * inTime.length) / count)])
    .flatMap((f) => (f ? [starListOf(f.stars)] : []))
    .filter((list) => list.count > 0);
  if (sample.length < FEWEST_FRAMES) return [];
  const fixed = alsoWhereMoved(recurring(sample), sample);
  if (fixed.length === 0) return [];
  const others = sample.map((list) => without(list, fixed));
  return restMoved(others, fixed.length) ? fixed : [];
}

/** Positions found again in most of the frames, each once. */
function recurring(sample: readonly StarList[]): readonly PixelPoint[] {
  const grids = sample.map(gridOf);
  const places: PixelPoint[] = [];
  // A position in three of four frames is in one of the first quarter and a bit.
  const seeds = sample.slice(0, Math.floor(sample.length * (1 - LEAST_SHARE)) + 1);
  for (const list of seeds) {
    for (let i = 0; i < list.count; i++) {
      const place = { x: list.x[i]!, y: list.y[i]! };
      const seen = grids.filter((grid) => isAt(grid, place)).length;
      if (seen < Math.max(3, LEAST_SHARE * sample.length)) continue;
      if (places.every((p) => Math.hypot(p.x - place.x, p.y - place.y) > 2 * STILL_PX)) places.push(place);
    }
  }
  return places;
}

/**
 * The positions that are also present in frames whose stars are mostly elsewhere. If a field was not dithered and moved
 * once, most frames have its stars at the same positions, and only the others distinguish them from sensor artefacts.
 */
function alsoWhereMoved(places: readonly PixelPoint[], sample: readonly StarList[]): readonly PixelPoint[] {
  const moved = sample.flatMap((list) => {
    const grid = gridOf(list);
    const found = places.filter((place) => isAt(grid, place)).length;
    return 2 * found < places.length && list.count - found >= FEWEST_OTHERS ? [grid] : [];
  });
  return places.filter((place) => 2 * moved.filter((grid) => isAt(grid, place)).length >= moved.length);
}

function isAt(grid: Grid, place: PixelPoint): boolean {
  return nearest(grid, place.x, place.y, STILL_PX) >= 0;
}

function without(list: StarList, places: readonly PixelPoint[]): StarList {
  const kept: number[] = [];
  for (let i = 0; i < list.count; i++) {
    const far = places.every((p) => Math.abs(p.x - list.x[i]!) > 1 || Math.abs(p.y - list.y[i]!) > 1);
    if (far) kept.push(i);
  }
  return {
    count: kept.length,
    x: numbersOf(kept, (i) => list.x[i]!),
    y: numbersOf(kept, (i) => list.y[i]!),
    sigma: numbersOf(kept, (i) => list.sigma[i]!),
  };
}

/**
 * Whether the remainder moved: it can be registered to itself with a shift, or it is the majority and most of it is
 * gone from where it was. The second alone would take the stars of an unmoved field for hot pixels and its noise for
 * stars.
 */
function restMoved(others: readonly StarList[], fixed: number): boolean {
  const rich = others.filter((list) => list.count >= FEWEST_OTHERS);
  const first = rich[0];
  if (!first) return false;
  const grid = gridOf(first);
  const rest = rich.slice(1);
  const gone = rest.filter((list) => list.count > fixed && shareStill(list, grid) <= STAYED).length;
  if (3 * gone >= rest.length && gone > 0) return true;
  const reference = referenceOf(first);
  let moved = 0;
  for (const list of rest) {
    const answer = register(reference, list, SAME_TRAIN);
    if (answer.state !== 'registered') continue;
    const star = { x: itemAt(first.x, 0), y: itemAt(first.y, 0) };
    const there = transform(answer.similarity, star);
    if (Math.hypot(there.x - star.x, there.y - star.y) > MOVED_PX) moved++;
    if (moved === 2) return true;
  }
  return false;
}

function shareStill(list: StarList, grid: Grid): number {
  let still = 0;
  for (let i = 0; i < list.count; i++) if (nearest(grid, list.x[i]!, list.y[i]!, STILL_PX) >= 0) still++;
  return still / list.count;
}
