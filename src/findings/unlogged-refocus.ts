/**
 * Unlogged refocuses: stars that had grown gradually are small again from one frame to the next, and stay so. Seeing
 * recovers as slowly as it deteriorates.
 */
import { itemAt, median } from '../model/index.js';
import type { SizedFrame } from './star-size.js';
import { FEW_FRAMES } from './swollen.js';

/** Abrupt decrease of the star size by this ratio. Common practice, no source. */
const SHRUNK = 1.25;
/** Growth by this ratio from one frame to the next is due to a knock: another finding. */
const JUMP = 1.3;

/** The frames of one filter, in order, split at unlogged refocuses. */
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

/** By the smaller ratio of both measures, for the frames on either side together and for the two adjacent ones. */
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
