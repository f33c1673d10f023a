/**
 * Groups with too few frames for a usual value of their own: what their verdicts were compared with instead is reported
 * once.
 */
import { counted, listed, type Rules } from '../../../vocabulary/index.js';
import { groupBy, ownValue } from '../../collections.js';
import type { Frame } from '../../frame.js';
import type { NightStars } from '../../stars.js';
import type { Warning } from '../../warning.js';

interface MeasuredNight {
  readonly gathered: { readonly rules: Rules };
  readonly timeline: { readonly frames: readonly Frame[] };
  readonly stars: Pick<NightStars, 'frames'> | null;
}

/** One notice for each train with such groups. */
export function smallGroupNotices({ gathered: { rules }, timeline, stars }: MeasuredNight): Warning[] {
  if (stars === null) return [];
  const least = rules.minimumGroupFrames;
  const speaking = timeline.frames.filter(
    ({ id, kind }) => kind === 'light' && (ownValue(stars.frames, id)?.count ?? 0) >= rules.minimumStars,
  );
  return [...groupBy(speaking, ({ train }) => train)].flatMap(([train, own]): Warning[] => {
    const groups = [...groupBy(own, ({ target, filter }) => JSON.stringify([target, filter])).values()];
    const small = groups.filter(({ length }) => length < least);
    if (small.length === 0) return [];
    const names = small.flatMap(([first, ...others]) => {
      if (first === undefined) return [];
      const group = [first.target, first.filter].filter(Boolean).join(', ') || 'no target';
      return [`${group} (${counted(1 + others.length, 'frame')})`];
    });
    const instead =
      own.length < least
        ? 'Their stars could not be compared: trails and sizes are not judged by the pixels.'
        : `They were compared with all ${counted(own.length, 'frame')} of ${train}: a filter with larger stars than ` +
          'the rest may be called swollen.';
    return [
      {
        code: 'few-frames-to-compare',
        message: `Fewer than ${least} frames with enough stars on ${train}: ${listed(names)}. ${instead}`,
      },
    ];
  });
}
