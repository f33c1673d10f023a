import { partitionPoint } from './collections.js';
import type { Interval } from './interval.js';

/** Finds, among many spans, those that overlap a given one, without examining all of them. */
export interface IntervalIndex<T> {
  /** Items that share at least one millisecond with the span, or are empty and inside it, sorted by start. */
  touching(span: Interval): T[];
}

/** Indexes items by their spans. Look-ups cost O(log n + found) while no item is much longer than the rest. */
export function indexSpans<T>(items: readonly T[], spanOf: (item: T) => Interval): IntervalIndex<T> {
  const sorted = items.map((item) => ({ item, span: spanOf(item) })).sort((a, b) => a.span.startMs - b.span.startMs);
  // Spans may overlap one another, so the look-back goes as far as the longest one.
  const longestMs = sorted.reduce((longest, { span }) => Math.max(longest, span.endMs - span.startMs), 0);
  return {
    touching({ startMs, endMs }) {
      const found: T[] = [];
      for (let i = partitionPoint(sorted, (e) => e.span.startMs >= startMs - longestMs); i < sorted.length; i++) {
        const { item, span } = sorted[i]!;
        if (span.startMs >= endMs) break;
        if (span.endMs > startMs || (span.startMs === span.endMs && span.startMs >= startMs)) found.push(item);
      }
      return found;
    },
  };
}
