import type { StatedExposure } from '../classify/structure.js';
import { isTook, tookUnit } from '../group-names.js';
import type { Kind, Slot } from './kind.js';
import { numberIn } from './values.js';

/** A download takes less than this. */
const MOST_SECONDS = 60;
const NEAR_MS = 700;
const MIN_LINES = 3;
const MOSTLY = 0.7;
const SELDOM = 0.2;

/**
 * The delay of lines that report a frame after its download: `downloaded in 1.9 s` is logged that long after the
 * shutter closed. Inferred from the begins and lengths of exposures: they end when the download begins.
 */
export function loggedLate(kind: Kind, stated: readonly StatedExposure[]): Slot | undefined {
  const slot = kind.slots.find(isTook);
  if (slot === undefined || kind.atMs.length < MIN_LINES) return undefined;
  const unitMs = (tookUnit(slot) ?? 1) * 1000;
  const lateMs = slot.perLine.map((value) => numberIn(value) * unitMs);
  if (lateMs.some((ms) => ms > MOST_SECONDS * 1000)) return undefined;
  const overMs = stated.flatMap(({ begin, seconds, unitSeconds }) =>
    begin.atMs.map((atMs, i) => atMs + numberIn(seconds.perLine[i]) * unitSeconds * 1000),
  );
  const share = (atOf: (i: number) => number): number =>
    kind.atMs.filter((_, i) => overMs.some((ms) => Math.abs(ms - atOf(i)) <= NEAR_MS)).length / kind.atMs.length;
  const isLate = share((i) => (kind.atMs[i] ?? NaN) - (lateMs[i] ?? NaN)) >= MOSTLY;
  return isLate && share((i) => kind.atMs[i] ?? NaN) <= SELDOM ? slot : undefined;
}
