/** What disturbed an exposure, in words, and which disturbance lasted longest. */
import { activityRow } from '../../../vocabulary/index.js';
import type { Activity } from '../../activity.js';
import { overlapMs, type Interval } from '../../interval.js';

/** Completes "… for 12 s of the exposure". @param owner the train whose exposure it is */
export function disturbanceText(activity: Activity, owner: string): string {
  const why = activity.why ? ` (${activity.why})` : '';
  switch (activity.kind) {
    case 'guiding-rest': {
      const { causedBy } = activity;
      const who = causedBy === undefined ? '' : causedBy === owner ? ' by its own train' : ` by ${causedBy}`;
      return `guiding was paused${who}${why}`;
    }
    case 'star-gap':
      return `the guide star was lost${why}`;
    case 'guiding-start':
      return 'guiding was starting and not yet settled';
    default:
      return activityRow(activity.kind).motion ?? `guiding was off${why}`;
  }
}

/** The activity with the largest part of an exposure; `undefined` if none overlaps it. */
export function mainDisturbance(
  activities: readonly Activity[],
  exposure: Interval,
): { readonly activity: Activity; readonly ms: number } | undefined {
  let main: { activity: Activity; ms: number } | undefined;
  for (const activity of activities) {
    const ms = overlapMs(activity.span, exposure);
    if (ms > 0 && (main === undefined || ms > main.ms)) main = { activity, ms };
  }
  return main;
}
