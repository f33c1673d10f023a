/** The same stars in two frames of a train: by their registration if there is one, else by the most common offset. */
import { increment } from '../model/index.js';
import type { FrameShift, Star } from '../model/index.js';
import { median } from '../model/statistics.js';
import { medianError } from './measure/summary.js';
import type { FluxFrame } from './types.js';

/** Minimum number of common stars. */
const MATCHES_MIN = 6;
/**
 * Tolerance for finding the same star, px; trails and defocus shift the centroids of faint and bright ones differently.
 */
const NEAR = [2, 5];
/** Maximum offset tried without a registration: dithers and drift. */
const OFFSET_MAX = 200;
const VOTERS = 60;

/**
 * Stars wider than this multiple of the reference's merge: the few isolated ones are no longer the brightest. Common
 * practice, no source.
 */
const WIDER = 1.8;

/** A handful of stars is sought among so many of the reference's brightest: with more, some fit by chance. */
const BRIGHT = 12;
/** Tolerance for a handful's places, px: noise and trails shift them. */
const FEW_NEAR = 3;
/** Largest dither by which a single star tells which it is, px. Common practice, no source. */
const LONE_OFFSET_MAX = 40;

/** Number of stars of a reference relative to which a handful is the remainder. */
const PLENTY = 10;

/** Brightness of a frame's stars relative to another's, with the standard error if there are enough stars. */
export interface FluxRatio {
  readonly ratio: number;
  readonly uncertainty: number | null;
}

/**
 * Median of the flux ratios of the stars that two frames have in common; `null` for fewer than six. A frame with fewer
 * stars than that in total, where the reference has plenty, is compared by the places of these few; where these do not
 * tell, it shows the brightest of them: compared rank by rank.
 */
export function fluxRatio(frame: FluxFrame, reference: FluxFrame): FluxRatio | null {
  const left = frame.list.stars.length;
  if (left > 0 && left < MATCHES_MIN && reference.list.stars.length >= PLENTY) return ratioOfFew(frame, reference);
  for (const near of NEAR) {
    const ratios = ratiosOfCommon(frame, reference, near);
    if (ratios.length >= MATCHES_MIN) return { ratio: median(ratios), uncertainty: medianError(ratios) };
  }
  return null;
}

function ratiosOfCommon(frame: FluxFrame, reference: FluxFrame, near: number): number[] {
  const stars = placesOnReference(frame, reference);
  const ratios: number[] = [];
  const others = new PlaceIndex(
    reference.shift === null || frame.shift === null ? reference.list.stars : placed(reference),
    near,
  );
  for (const { star, x, y } of stars) {
    const other = others.nearest(x, y);
    if (other === undefined || star.saturated || other.saturated) continue;
    if (star.flux > 0 && other.flux > 0) ratios.push(star.flux / other.flux);
  }
  return ratios;
}

/**
 * A handful of stars at the places of some of the reference's brightest: one of these may have left the field with a
 * dither, or merged with another, so that ranks do not tell which they are. Else by rank.
 */
function ratioOfFew(frame: FluxFrame, reference: FluxFrame): FluxRatio | null {
  const few = frame.list.stars;
  const isPlaced = frame.shift !== null && reference.shift !== null;
  const [own, bright] = isPlaced ? [placed(frame), placed(reference)] : [few, reference.list.stars.slice(0, BRIGHT)];
  let best: { readonly ratios: readonly number[]; readonly away: number } | null = null;
  for (const { dx, dy } of isPlaced ? [{ dx: 0, dy: 0 }] : offsetsOf(own, bright)) {
    const away = Math.hypot(dx, dy);
    if (away > (few.length === 1 ? LONE_OFFSET_MAX : OFFSET_MAX)) continue;
    const ratios = own.flatMap((star) => {
      const other = bright.find((one) => Math.hypot(one.x - star.x - dx, one.y - star.y - dy) <= FEW_NEAR);
      return other === undefined || star.saturated || other.saturated ? [] : [star.flux / other.flux];
    });
    const isBetter = !best || ratios.length > best.ratios.length;
    if (isBetter || (ratios.length === best?.ratios.length && away < best.away)) best = { ratios, away };
  }
  if (best === null || best.ratios.length < Math.max(1, few.length - 1)) return ratioByRank(frame, reference);
  return ratioOf(best.ratios);
}

function offsetsOf(own: readonly Star[], others: readonly Star[]): { readonly dx: number; readonly dy: number }[] {
  return own.flatMap((star) => others.map((other) => ({ dx: other.x - star.x, dy: other.y - star.y })));
}

function ratioOf(ratios: readonly number[]): FluxRatio {
  return { ratio: median(ratios), uncertainty: ratios.length < 3 ? null : medianError(ratios) };
}

/** Both lists are sorted by brightness, and a cloud does not change the order; swollen stars are different. */
function ratioByRank(frame: FluxFrame, reference: FluxFrame): FluxRatio | null {
  if (widthOf(frame) > WIDER * widthOf(reference)) return null;
  const ratios = frame.list.stars.flatMap((star, rank) => {
    const other = reference.list.stars[rank];
    return other !== undefined && star.flux > 0 && other.flux > 0 ? [star.flux / other.flux] : [];
  });
  return ratios.length === 0 ? null : ratioOf(ratios);
}

function widthOf({ list }: FluxFrame): number {
  return median(list.stars.map(({ fwhm }) => fwhm));
}

interface Placed {
  readonly star: Star;
  readonly x: number;
  readonly y: number;
}

function placesOnReference(frame: FluxFrame, reference: FluxFrame): Placed[] {
  if (frame.shift !== null && reference.shift !== null)
    return placed(frame).map((star) => ({ star, x: star.x, y: star.y }));
  const offset = commonOffset(frame.list.stars, reference.list.stars);
  if (offset === undefined) return [];
  return frame.list.stars.map((star) => ({ star, x: star.x + offset.x, y: star.y + offset.y }));
}

/** Stars with their places on the group's reference frame: p there is at R·p + shift here. */
function placed({ list, shift }: FluxFrame): Star[] {
  return shift === null
    ? [...list.stars]
    : list.stars.map((star) => ({ ...star, ...backwards(shift, star.x, star.y) }));
}

function backwards(shift: FrameShift, x: number, y: number): { x: number; y: number } {
  const angle = (shift.rotation * Math.PI) / 180;
  const dx = x - shift.x;
  const dy = y - shift.y;
  return { x: Math.cos(angle) * dx + Math.sin(angle) * dy, y: -Math.sin(angle) * dx + Math.cos(angle) * dy };
}

/** The offset that maps most stars of one frame onto the other's, by votes of pairs; without rotation. */
export function commonOffset(stars: readonly Star[], others: readonly Star[]): { x: number; y: number } | undefined {
  const votes = new Map<number, number>();
  const cell = 3;
  const side = Math.ceil((2 * OFFSET_MAX) / cell) + 2;
  const keyOf = (dx: number, dy: number): number =>
    Math.floor((dx + OFFSET_MAX) / cell) * side + Math.floor((dy + OFFSET_MAX) / cell);
  const pairs: { dx: number; dy: number }[] = [];
  for (const star of stars.slice(0, VOTERS))
    for (const other of others.slice(0, VOTERS)) {
      const dx = other.x - star.x;
      const dy = other.y - star.y;
      if (Math.abs(dx) > OFFSET_MAX || Math.abs(dy) > OFFSET_MAX) continue;
      pairs.push({ dx, dy });
      // Including neighbouring cells, so that no true offset is split in two.
      for (const i of [0, 1])
        for (const j of [0, 1]) {
          const key = keyOf(dx + i * (cell / 2), dy + j * (cell / 2)) * 4 + i * 2 + j;
          increment(votes, key);
        }
    }
  let best: { key: number; count: number } | undefined;
  for (const [key, count] of votes) if (best === undefined || count > best.count) best = { key, count };
  if (best === undefined || best.count < MATCHES_MIN) return undefined;
  const part = best.key % 4;
  const winners = pairs.filter(
    ({ dx, dy }) => keyOf(dx + (part >> 1) * (cell / 2), dy + (part & 1) * (cell / 2)) * 4 + part === best.key,
  );
  return { x: median(winners.map(({ dx }) => dx)), y: median(winners.map(({ dy }) => dy)) };
}

/** Stars by position. */
class PlaceIndex {
  private readonly cells = new Map<string, Star[]>();

  constructor(
    stars: readonly Star[],
    private readonly near: number,
  ) {
    for (const star of stars) {
      const key = this.cellOf(star.x, star.y);
      this.cells.set(key, [...(this.cells.get(key) ?? []), star]);
    }
  }

  nearest(x: number, y: number): Star | undefined {
    let best: { star: Star; square: number } | undefined;
    for (let i = -1; i <= 1; i++)
      for (let j = -1; j <= 1; j++)
        for (const star of this.cells.get(this.cellOf(x + i * this.near, y + j * this.near)) ?? []) {
          const square = (star.x - x) ** 2 + (star.y - y) ** 2;
          if (square <= this.near ** 2 && (best === undefined || square < best.square)) best = { star, square };
        }
    return best?.star;
  }

  private cellOf(x: number, y: number): string {
    return `${Math.floor(x / this.near)},${Math.floor(y / this.near)}`;
  }
}
