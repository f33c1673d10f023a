/**
 * Words for durations, instants and counts in findings.
 */
import { DateTime } from 'luxon';
import type { Finding, Interval, JudgedFrame, NightFacts } from '../model/index.js';

/** `1 h 05 m`, `38 m`, `40 s`. */
export function hoursAndMinutes(ms: number): string {
  if (ms < 59_500) return `${Math.round(ms / 1000)} s`;
  const minutes = Math.round(ms / 60_000);
  return minutes >= 60 ? `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, '0')} m` : `${minutes} m`;
}

/** `42 s`, `3 m 20 s`. */
export function seconds(ms: number): string {
  const whole = Math.round(ms / 1000);
  return whole < 90 ? `${whole} s` : `${Math.floor(whole / 60)} m ${String(whole % 60).padStart(2, '0')} s`;
}

/** Local time at the site, `23:14`. */
export function clock(atMs: number, night: NightFacts): string {
  return DateTime.fromMillis(atMs, { zone: night.gathered.site?.timezone ?? 'utc' }).toFormat('HH:mm');
}

/** `23:14 to 23:40`. */
export function fromTo(span: Interval, night: NightFacts): string {
  return `${clock(span.startMs, night)} to ${clock(span.endMs, night)}`;
}

/** `1 frame`, `3 frames`. */
export function counted(count: number, singular: string, plural = `${singular}s`): string {
  return `${count} ${count === 1 ? singular : plural}`;
}

/** `once`, `twice`, `3 times`. */
export function times(count: number): string {
  return count === 1 ? 'once' : count === 2 ? 'twice' : `${count} times`;
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(items: readonly string[]): string {
  return items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} and ${items.at(-1) ?? ''}`;
}

/** `12 %`. */
export function percent(share: number): string {
  return `${Math.round(share * 100)} %`;
}

/** The first few lines, and how many more there are. */
export function firstOf(lines: readonly string[], limit = 4): string[] {
  return lines.length <= limit + 1 ? [...lines] : [...lines.slice(0, limit), `and ${lines.length - limit} more`];
}

/** Links to frames, at most `limit` of them. */
export function frameLinks(
  frames: readonly JudgedFrame[],
  night: NightFacts,
  limit = 8,
): NonNullable<Finding['links']> {
  return frames
    .slice(0, limit)
    .map((f) => ({ text: `${f.train} ${clock(f.exposure.startMs, night)}`, anchor: `frame-${f.id}` }));
}
