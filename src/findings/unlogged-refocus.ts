/**
 * Refocuses that no log tells of: stars that had grown little by little are small again from one frame to the next, and
 * stay so. Seeing comes back as slowly as it went.
 */
import { itemAt, median } from '../model/index.js';
import type { SizedFrame } from './star-size.js';
import { FEW_FRAMES } from './swollen.js';

/** Stars are small again where they shrink by this ratio at once. Common practice, no source. */
const SHRUNK = 1.25;
/** What grew by this ratio from one frame to the next did so by a knock: another finding's. */
const JUMP = 1.3;

/** The frames of one filter, in order, parted at refocuses that no log tells of. */
export function betweenUnlogged(own: readonly SizedFrame[]): (readonly SizedFrame[])[] {
  const parts: (readonly SizedFrame[])[] = [];
  let from = 0;
  for (let at = FEW_FRAMES; at + FEW_FRAMES <= own.length; at++) {
    if (at - from < 2 * FEW_FRAMES || !isSmallAgain(own, at) || !grewSlowly(own.slice(from, at))) continue;
    parts.push(own.slice(from, at));
    from = at;
  }
  return [...parts, own.slice(from)];
}

/** By the smaller ratio of both measures, of the frames on either side together and of the two next to each other. */
function isSmallAgain(own: readonly SizedFrame[], at: number): boolean {
  const shrunk = (before: readonly SizedFrame[], after: readonly SizedFrame[]): boolean =>
    (['size', 'zenith'] as const).every(
      (of) => median(before.map((s) => s[of])) >= SHRUNK * median(after.map((s) => s[of])),
    );
  const near = (reach: number): boolean => shrunk(own.slice(at - reach, at), own.slice(at, at + reach));
  return near(1) && near(FEW_FRAMES);
}

function grewSlowly(part: readonly SizedFrame[]): boolean {
  return part.slice(1).every(({ size }, i) => size < JUMP * itemAt(part, i).size);
}
