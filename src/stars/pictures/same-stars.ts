/** Positions of the same stars in two frames. */
import type { FrameShift, Star } from '../../model/index.js';
import type { Place } from '../cut-outs.js';
import { commonOffset } from '../match-stars.js';
import type { StarList } from '../types.js';

/** A frame's stars and its registration to the reference of its field. */
export interface PlacedList {
  readonly list: StarList;
  readonly shift: FrameShift | null;
}

/** Stars closer to each other than this many stamps would show up twice. */
const APART_STAMPS = 1;

/**
 * Bright unsaturated stars of one frame, and their predicted positions in another: by both frames' registrations, else
 * by the most common offset of their lists.
 *
 * @param margin px required around each in both frames
 * @returns pairs of positions, brightest first; none if the frames cannot be registered
 */
export function sameStars(from: PlacedList, to: PlacedList, count: number, margin: number): [Place, Place][] {
  const map = mapping(from, to);
  if (map === undefined) return [];
  const chosen: [Place, Place][] = [];
  for (const star of [...from.list.stars].filter(({ saturated }) => !saturated)) {
    if (chosen.length >= count) break;
    const there = map(star);
    if (!isInside(star, from.list, margin) || !isInside(there, to.list, margin)) continue;
    if (chosen.some(([other]) => Math.hypot(other.x - star.x, other.y - star.y) < 2 * margin * APART_STAMPS)) continue;
    chosen.push([star, there]);
  }
  return chosen;
}

function mapping(from: PlacedList, to: PlacedList): ((star: Star) => Place) | undefined {
  const [a, b] = [from.shift, to.shift];
  if (a !== null && b !== null) {
    // A point p of the reference is at R·p + shift in a frame.
    return ({ x, y }) => {
      const [px, py] = turned(x - a.x, y - a.y, -a.rotation);
      const [qx, qy] = turned(px, py, b.rotation);
      return { x: qx + b.x, y: qy + b.y };
    };
  }
  const offset = commonOffset(from.list.stars, to.list.stars);
  return offset && (({ x, y }) => ({ x: x + offset.x, y: y + offset.y }));
}

function turned(x: number, y: number, deg: number): [number, number] {
  const angle = (deg * Math.PI) / 180;
  return [x * Math.cos(angle) - y * Math.sin(angle), x * Math.sin(angle) + y * Math.cos(angle)];
}

function isInside({ x, y }: Place, { width, height }: StarList, margin: number): boolean {
  return x > margin + 1 && y > margin + 1 && x < width - margin && y < height - margin;
}
