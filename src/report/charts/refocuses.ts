import type { ActivityOf, Night } from '../../model/index.js';
import { verticals, type VerticalsMark } from './marks.js';
import type { ChartContext } from './chart.js';

/** Every refocus of the night. */
export function refocuses(night: Night): ActivityOf<'focus'>[] {
  return night.timeline.activities.filter((activity) => activity.kind === 'focus');
}

/** A vertical line at the end of each refocus, in its train's colour. */
export function refocusMarks(night: Night, { palette }: ChartContext): VerticalsMark {
  return verticals(
    refocuses(night).map(({ span, train }) => ({
      atMs: span.endMs,
      colour: train === undefined ? 'ink-soft' : palette.train(train),
    })),
  );
}
