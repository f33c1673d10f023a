import type { EventName } from '../../../../model/index.js';
import type { Part, Ranged } from './parts.js';
import { isFrameFile } from './values.js';

/**
 * Maximum time from the move of a dither until guiding has settled, ms; maximum time from an exposure until its file is
 * written.
 */
const SETTLES_MS = [1000, 120_000] as const;
const WRITTEN_MS = [0, 60_000] as const;
/** Maximum time from the request of a dither to its move, ms: the other train's exposure must end. */
const ASKED_MS = [0, 1_800_000] as const;
/** Minimum fraction of rows with the third time; and for exposures, the minimum fraction with a file name. */
const NEARLY_ALL = 0.9;

/**
 * The meaning of a third time in rows that state begin and end. Before a dither's move it is the request, after it the
 * end of settling; after an exposure its file is written.
 *
 * @param event the span that ends in these rows
 * @param isSavedElsewhere other lines report when files are written
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
