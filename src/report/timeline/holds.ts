import { duration, durationMs, intersect, type Interval } from '../../model/index.js';
import type { Drawing } from './drawing.js';
import { fitClass, textWidthPx, type TimeScale } from './scale.js';

/** A period in which everything stood still: drawn over all lanes. */
export interface HoldBlock {
  /** The visible part. */
  readonly span: Interval;
  readonly x: string;
  readonly xEnd: string;
  readonly middle: string;
  readonly title: string;
  readonly label: { readonly text: string; readonly fit: string } | null;
}

const LABEL_PX = 12;
/** With more holds than this none has space for a word. */
const MOST_LABELLED = 100;

/** The visible holds. A hold of one train only is in that train's accounts. */
export function holdsOf({ night, scale, clock }: Drawing): HoldBlock[] {
  const shared = night.timeline.activities.filter(
    (activity) => activity.kind === 'hold' && activity.train === undefined,
  );
  const seen = shared.flatMap(({ span, why }) => {
    const visible = intersect(span, scale.span);
    return visible === null ? [] : [{ span, why, visible }];
  });
  const roomOf = (visible: Interval): number =>
    roomFor(
      visible,
      seen.map((one) => one.visible).filter((one) => one !== visible),
      scale,
    );
  return seen.map(({ span, why, visible }): HoldBlock => {
    const text = why ?? 'hold';
    const fit = seen.length > MOST_LABELLED ? null : fitClass(textWidthPx(text, LABEL_PX), roomOf(visible));
    return {
      span: visible,
      x: scale.x(visible.startMs),
      xEnd: scale.x(visible.endMs),
      middle: scale.x((visible.startMs + visible.endMs) / 2),
      title:
        `on hold${why === undefined ? '' : ` (${why})`}: ${duration(durationMs(span))} from ` +
        `${clock.seconds(span.startMs)}`,
      label: fit === null ? null : { text, fit },
    };
  });
}

/**
 * Fraction of the axis available for a word over the middle of a hold: up to the next holds, and to the picture's ends.
 */
function roomFor({ startMs, endMs }: Interval, others: readonly Interval[], scale: TimeScale): number {
  const middleMs = (startMs + endMs) / 2;
  const left = Math.max(scale.span.startMs, ...others.map((one) => one.endMs).filter((atMs) => atMs <= middleMs));
  const right = Math.min(scale.span.endMs, ...others.map((one) => one.startMs).filter((atMs) => atMs >= middleMs));
  // A neighbour's word may be as wide: each has half of the space between them.
  const half = Math.min(
    (left === scale.span.startMs ? 1 : 0.5) * scale.share(left, middleMs),
    (right === scale.span.endMs ? 1 : 0.5) * scale.share(middleMs, right),
  );
  return Math.max(scale.share(startMs, endMs), 2 * half);
}
