import type { EventName } from '../../../../model/index.js';
import type { Part, Ranged } from './parts.js';
import { isFrameFile } from './values.js';

/** So soon after the move of a dither the guiding has settled, ms; so soon after the exposure its file is written. */
const SETTLES_MS = [1000, 120_000] as const;
const WRITTEN_MS = [0, 60_000] as const;
/** So long before its move a dither is asked for, ms: the other train's exposure must end. */
const ASKED_MS = [0, 1_800_000] as const;
/** In this share of the rows that state a third time; and of those of exposures this share names a file. */
const NEARLY_ALL = 0.9;

/**
 * What a third time is in rows that state when a thing began and when it ended. Ahead of a dither's move it was asked
 * for, after it the guiding has settled; after an exposure its file is written.
 *
 * @param event what ends in these rows
 * @param isSavedElsewhere other lines say when files are written
 */
export function thirdTime(
  { kind, whole }: Part,
  range: Ranged | undefined,
  event: EventName | null,
  isSavedElsewhere: boolean,
): EventName | null {
  if (range === undefined) return null;
  const known = kind.atMs.flatMap((atMs, i) =>
    Number.isNaN(atMs) ? [] : [{ atMs, endMs: range.kind.atMs[i] ?? NaN, tookMs: range.tookMs[i] ?? NaN }],
  );
  const isMostly = ([least, most]: readonly [number, number], away: (one: (typeof known)[number]) => number): boolean =>
    known.filter((one) => away(one) >= least && away(one) <= most).length >= NEARLY_ALL * Math.max(1, known.length);
  const after = ({ atMs, endMs }: (typeof known)[number]): number => atMs - endMs;
  if (event === 'exposure-end' && !isSavedElsewhere && isMostly(WRITTEN_MS, after))
    return whole.slots.some(({ perLine }) => perLine.filter(isNamed).length >= NEARLY_ALL * perLine.length)
      ? 'frame-saved'
      : null;
  if (event !== 'dither-end') return null;
  if (isMostly(SETTLES_MS, after)) return 'settling-end';
  return isMostly(ASKED_MS, ({ atMs, endMs, tookMs }) => endMs - tookMs - atMs) ? 'dither-ready' : null;
}

function isNamed(value: string | undefined): boolean {
  return value !== undefined && isFrameFile(value);
}
