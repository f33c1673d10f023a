import { duration, durationMs, intersect } from '../../model/index.js';
import type { Drawing } from './drawing.js';
import { fitClass, textWidthPx } from './scale.js';

/** A stretch in which everyone stood still: drawn over all lanes. */
export interface HoldBlock {
  readonly x: string;
  readonly xEnd: string;
  readonly middle: string;
  readonly title: string;
  readonly label: { readonly text: string; readonly fit: string } | null;
}

const LABEL_PX = 12;

/** The holds in view. A hold of one train alone stands in that train's accounts. */
export function holdsOf({ night, scale, clock }: Drawing): HoldBlock[] {
  const shared = night.timeline.activities.filter(
    (activity) => activity.kind === 'hold' && activity.train === undefined,
  );
  return shared.flatMap(({ span, why }): HoldBlock[] => {
    const visible = intersect(span, scale.span);
    if (visible === null) return [];
    const text = why ?? 'hold';
    const fit = fitClass(textWidthPx(text, LABEL_PX), scale.share(visible.startMs, visible.endMs));
    return [
      {
        x: scale.x(visible.startMs),
        xEnd: scale.x(visible.endMs),
        middle: scale.x((visible.startMs + visible.endMs) / 2),
        title:
          `on hold${why === undefined ? '' : ` (${why})`}: ${duration(durationMs(span))} from ` +
          `${clock.seconds(span.startMs)}`,
        label: fit === null ? null : { text, fit },
      },
    ];
  });
}
