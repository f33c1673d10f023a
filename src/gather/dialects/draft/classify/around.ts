import { labelOf } from './labels.js';

const MINUTE_MS = 60_000;
/** How long guiding lasts, pauses, and a train waits for the other (common practice, no source). */
const AROUND: ReadonlyMap<number, readonly [shortMs: number, longMs: number]> = new Map([
  [labelOf('guiding-end'), [12 * MINUTE_MS, 900 * MINUTE_MS]],
  [labelOf('guiding-rest-end'), [0.3 * MINUTE_MS, 12 * MINUTE_MS]],
  [labelOf('dither-ready'), [0, 30 * MINUTE_MS]],
]);
const LASTS_SO = 0.6;
const LASTS_OTHERWISE = -0.4;

/** Only guiding goes on for so long at times; it is also stopped soon after it began, as by a star that is lost. */
const FOR_HOURS_MS = 45 * MINUTE_MS;
const GUIDED = labelOf('guiding-end');

/** The longest of these spans, ms. */
export function longestOf(tookMs: readonly number[] = []): number {
  return tookMs.reduce((most, ms) => Math.max(most, Number.isNaN(ms) ? 0 : ms), 0);
}

/**
 * Rows for spans that run in parallel with others have no order among them: only their duration is informative.
 *
 * @param longestMs the longest span of its kind
 */
export function aroundFit(label: number, tookMs: number, longestMs = 0): number | null {
  const [shortMs, longMs] = AROUND.get(label) ?? [];
  if (shortMs === undefined || longMs === undefined) return null;
  if (label === GUIDED && longestMs >= FOR_HOURS_MS && longestMs <= longMs) return LASTS_SO;
  return tookMs >= shortMs && tookMs <= longMs ? LASTS_SO : LASTS_OTHERWISE;
}
