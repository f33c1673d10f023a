import { oncePer, type Interval, type Night } from '../../model/index.js';

const SAME_STRETCH_MS = 45 * 60_000;

/** Per target; several charts request them, at two sizes each. */
const spansOf = oncePer((night: Night): ReadonlyMap<string | undefined, readonly Interval[]> => {
  const spans = new Map<string | undefined, { startMs: number; endMs: number }[]>();
  for (const { target, exposure } of night.accounts.lights) {
    const own = spans.get(target) ?? [];
    if (own.length === 0) spans.set(target, own);
    const last = own.at(-1);
    if (last && exposure.startMs - last.endMs < SAME_STRETCH_MS) last.endMs = Math.max(last.endMs, exposure.endMs);
    else own.push({ startMs: exposure.startMs, endMs: exposure.endMs });
  }
  return spans;
});

/** Spans in which any train imaged a target: frames less than three quarters of an hour apart form one span. */
export function imagedSpans(night: Night, target: string): readonly Interval[] {
  return spansOf(night).get(target) ?? [];
}
