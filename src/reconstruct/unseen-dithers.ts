/** Dithers that headers alone cannot show, because they take no longer than pauses between short subs vary. */
import { durationMs, groupBy, median, type Activity, type Frame, type Warning } from '../model/index.js';
import { OVERHEAD_MS } from './gaps.js';

/** Subs up to this are taken by mounts that settle in a second as well, ms. Common practice, no source. */
const SHORT_MS = 30_000;
/** Fewer lights tell nothing. */
const FEWEST_LIGHTS = 50;
/** With a dither seen for each so many lights of a train there is a rhythm. Common practice, no source. */
const LIGHTS_A_DITHER = 100;

/**
 * A notice where subs are short and headers show hardly a dither: there may have been some.
 *
 * @param inferred activities that gaps between frames show
 */
export function unseenDithers(frames: readonly Frame[], inferred: readonly Activity[]): Warning[] {
  const lights = frames.filter(({ kind }) => kind === 'light');
  const most = Math.max(0, ...[...groupBy(lights, ({ train }) => train).values()].map(({ length }) => length));
  const usualMs = median(lights.map(({ exposure }) => durationMs(exposure)));
  const seen = inferred.filter(({ kind }) => kind === 'dither-move').length;
  if (most < FEWEST_LIGHTS || !(usualMs <= SHORT_MS) || seen * LIGHTS_A_DITHER >= most) return [];
  return [
    {
      code: 'short-dithers-unseen',
      message:
        `with subs of ${Math.round(usualMs / 1000)} s, headers do not tell a short dither from a pause: up to ` +
        `${OVERHEAD_MS / 1000} s beyond the usual one count as readout. Dithers as short as that, and what trains ` +
        'waited for them, are missing here; a log would have them',
    },
  ];
}
