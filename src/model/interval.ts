/**
 * Interval algebra on whole UTC milliseconds. Every span in nightledger is half-open, `[startMs, endMs)`:
 * neighbours that share an edge do not overlap, and durations add up without rounding.
 */

/** A half-open span of time, `[startMs, endMs)`, in whole milliseconds since the Unix epoch (UTC). */
export interface Interval {
  readonly startMs: number;
  readonly endMs: number;
}

/**
 * Makes an interval; the only constructor.
 *
 * @param startMs first millisecond inside, UTC ms since the epoch
 * @param endMs first millisecond after, UTC ms since the epoch
 * @throws RangeError when an end is not a whole number or the end lies before the start
 */
export function interval(startMs: number, endMs: number): Interval {
  if (!Number.isSafeInteger(startMs) || !Number.isSafeInteger(endMs)) {
    throw new RangeError(`interval ends must be whole milliseconds, got ${startMs} and ${endMs}`);
  }
  if (endMs < startMs) throw new RangeError(`interval ends before it starts: ${startMs} > ${endMs}`);
  return { startMs, endMs };
}

/** Length in milliseconds. */
export function durationMs(span: Interval): number {
  return span.endMs - span.startMs;
}

/** Whether the instant lies inside; the end itself does not. */
export function contains(span: Interval, atMs: number): boolean {
  return atMs >= span.startMs && atMs < span.endMs;
}

/** The intersection of two intervals, or `null` when they share no millisecond. */
export function intersect(a: Interval, b: Interval): Interval | null {
  const startMs = Math.max(a.startMs, b.startMs);
  const endMs = Math.min(a.endMs, b.endMs);
  return endMs > startMs ? { startMs, endMs } : null;
}

/** Overlap in milliseconds. */
export function overlapMs(a: Interval, b: Interval): number {
  return Math.max(0, Math.min(a.endMs, b.endMs) - Math.max(a.startMs, b.startMs));
}

/** Sorted, disjoint union: overlapping and touching spans become one, empty ones vanish. */
export function union(spans: readonly Interval[]): Interval[] {
  const sorted = spans.filter((s) => s.endMs > s.startMs).sort((a, b) => a.startMs - b.startMs);
  const out: { startMs: number; endMs: number }[] = [];
  for (const span of sorted) {
    const last = out[out.length - 1];
    if (last && span.startMs <= last.endMs) last.endMs = Math.max(last.endMs, span.endMs);
    else out.push({ startMs: span.startMs, endMs: span.endMs });
  }
  return out;
}

/** The difference `from` minus `cut`, sorted and disjoint. */
export function subtract(from: readonly Interval[], cut: readonly Interval[]): Interval[] {
  const cuts = union(cut);
  const out: Interval[] = [];
  let first = 0;
  for (const span of union(from)) {
    let startMs = span.startMs;
    while (first < cuts.length && cuts[first]!.endMs <= startMs) first++;
    for (let i = first; i < cuts.length && cuts[i]!.startMs < span.endMs; i++) {
      const hole = cuts[i]!;
      if (hole.startMs > startMs) out.push({ startMs, endMs: hole.startMs });
      startMs = Math.max(startMs, hole.endMs);
    }
    if (startMs < span.endMs) out.push({ startMs, endMs: span.endMs });
  }
  return out;
}

/** The spans' parts inside the window, in the order given. */
export function clip(spans: readonly Interval[], window: Interval): Interval[] {
  return spans.flatMap((span) => intersect(span, window) ?? []);
}

/** Total length of the union in milliseconds: time covered twice counts once. */
export function coveredMs(spans: readonly Interval[]): number {
  return union(spans).reduce((sum, span) => sum + durationMs(span), 0);
}

/** Midpoint, rounded down to a whole millisecond. */
export function midpointMs(span: Interval): number {
  return Math.floor((span.startMs + span.endMs) / 2);
}

/** The smallest interval that holds every span, or `null` for none. */
export function hull(spans: readonly Interval[]): Interval | null {
  if (spans.length === 0) return null;
  let startMs = Infinity;
  let endMs = -Infinity;
  for (const span of spans) {
    startMs = Math.min(startMs, span.startMs);
    endMs = Math.max(endMs, span.endMs);
  }
  return interval(startMs, endMs);
}
