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

/** Rows for spans that run in parallel with others have no order among them: only their duration is informative. */
export function aroundFit(label: number, tookMs: number): number | null {
  const [shortMs, longMs] = AROUND.get(label) ?? [];
  if (shortMs === undefined || longMs === undefined) return null;
  return tookMs >= shortMs && tookMs <= longMs ? LASTS_SO : LASTS_OTHERWISE;
}
