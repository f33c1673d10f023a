/** Frames taken while the target was below its limit: begun too early, or continued too long. */
import {
  counted,
  coveredMs,
  durationMs,
  groupBy,
  intersect,
  listed,
  sum,
  type Interval,
  type JudgedFrame,
  type NightFacts,
} from '../model/index.js';
import type { FindingModule } from './finding.js';
import { exposedMs, exposures } from './trains.js';
import { clock, frameLinks } from './wording.js';

export const lowTarget: FindingModule<{ readonly minimumFrames: number }> = {
  id: 'low-target',
  title: 'Target too low',
  needs: ['target-place', 'lights', 'times-by-the-sky'],
  defaults: { minimumFrames: 1 },
  find(night, { minimumFrames }) {
    const low = night.accounts.lights.filter((f) => f.target !== undefined && f.causes.some((c) => c.kind === 'low'));
    const groups = groupBy(low, (f) => JSON.stringify([f.target, !isNeverUp(night, f) && isRising(night, f)]));
    return [...groups.values()].flatMap((frames) => {
      const [first] = frames;
      const last = frames.at(-1);
      if (!first || !last || frames.length < minimumFrames) return [];
      const target = first.target ?? '';
      const never = isNeverUp(night, first);
      const rising = !never && isRising(night, first);
      const upMs = upFrom(night, target, last.exposure.startMs);
      const costMs = exposedMs(frames);
      const others = otherUp(night, target, { startMs: first.exposure.startMs, endMs: last.exposure.endMs });
      return [
        {
          title: never
            ? `${target} was below its limit all night`
            : rising
              ? `${target} was begun too low`
              : `${target} was imaged until it was too low`,
          costMs,
          frames: frames.length,
          evidence: [
            `${counted(frames.length, 'frame')} of ${listed([...new Set(frames.map((f) => f.train))])} from ` +
              `${clock(first.exposure.startMs, night)} to ${clock(last.exposure.endMs, night)}, at ` +
              `${altitudes(frames)} with a limit of ${limitOf(frames).toFixed(0)}°`,
            ...(never ? highestWords(night, target) : []),
            ...(rising && upMs !== null ? [`it was above its limit from ${clock(upMs, night)} on`] : []),
            ...(others.length > 0
              ? [`recoverable: their exposure, less one more slew to a target unless the night made it anyway`]
              : []),
          ],
          advice: never
            ? insteadOf(target, others)
            : rising
              ? `Begin ${target}` +
                (upMs === null ? ' later' : ` at ${clock(upMs, night)}`) +
                (others.length > 0 ? `, and image ${listed(others)} before` : ', and another target before') +
                '.'
              : `Leave ${target} at ${clock(first.exposure.startMs, night)}` +
                (others.length > 0 ? ` for ${listed(others)}` : ' for a target that is higher') +
                '.',
          ...(others.length > 0
            ? { winMs: Math.max(0, Math.round(costMs - morePointingMs(night, frames, rising, others))) }
            : {}),
          confidence: 'high' as const,
          links: [{ text: 'Sky', anchor: 'sky' }, ...frameLinks(frames, night, 4)],
          minutes: exposures(frames),
        },
      ];
    });
  },
};

/** Whether the target was still climbing. */
function isRising(night: NightFacts, { target, exposure }: JudgedFrame): boolean {
  const points = night.sky.curves.find((c) => c.target === target)?.points ?? [];
  const found = points.findIndex((p) => p.atMs >= exposure.startMs);
  // Frames before the curve, or after it, use the curve's nearest step.
  const next = found === -1 ? points.length - 1 : Math.max(1, found);
  const [before, after] = [points[next - 1], points[next]];
  return before !== undefined && after !== undefined && after.altitudeDeg > before.altitudeDeg;
}

/** Whether no moment of the darkness had the target above its limit, so that another hour is no remedy. */
function isNeverUp(night: NightFacts, { target }: JudgedFrame): boolean {
  const found = night.sky.curves.find((c) => c.target === target);
  return found !== undefined && found.up.length === 0;
}

/** When a target that never reached its limit stood highest in the dark, as evidence. */
function highestWords(night: NightFacts, target: string): string[] {
  const { startMs, endMs } = night.sky.window;
  const curve = night.sky.curves.find((c) => c.target === target);
  const points = (curve?.points ?? []).filter((p) => p.atMs >= startMs && p.atMs <= endMs);
  const [first, ...rest] = points;
  if (!first) return [];
  const top = rest.reduce((best, p) => (p.altitudeDeg > best.altitudeDeg ? p : best), first);
  return [`in the dark it was highest at ${clock(top.atMs, night)}, at ${top.altitudeDeg.toFixed(1)}°`];
}

function insteadOf(target: string, others: readonly string[]): string {
  return (
    `Instead of ${target}, image ${others.length > 0 ? listed(others) : 'a target that is higher'}. If you want it ` +
    'from here all the same, take it when it is highest, and lower minimumAltitude: in the rig file.'
  );
}

/** Pointing and starting the guiding if the night has no example, ms. Common practice, no source. */
const USUAL_POINTING_MS = 300_000;

/** Train time of one additional slew to a target, which the advice requires unless the night made one anyway, ms. */
function morePointingMs(
  night: NightFacts,
  frames: readonly JudgedFrame[],
  rising: boolean,
  others: readonly string[],
): number {
  const trains = new Set(frames.map((f) => f.train));
  const lastMs = Math.max(...frames.map((f) => f.exposure.startMs));
  const turnsAnyway = night.accounts.lights.some(
    (f) => trains.has(f.train) && f.target !== frames[0]?.target && f.exposure.startMs > lastMs,
  );
  if (!rising && turnsAnyway) return 0;
  // The mount came from a target that it may stay on: the slew is the same, and later.
  const firstLowMs = Math.min(...frames.map((f) => f.exposure.startMs));
  const before = night.accounts.lights.findLast((f) => trains.has(f.train) && f.exposure.startMs < firstLowMs);
  if (rising && before?.target !== undefined && others.includes(before.target)) return 0;
  const firstMs = Math.min(...night.accounts.lights.map((f) => f.exposure.startMs));
  const first = night.timeline.activities.filter(
    (a) => ['slew', 'centre', 'guiding-start'].includes(a.kind) && a.span.endMs <= firstMs,
  );
  const onceMs = first.length > 0 ? coveredMs(first.map((a) => a.span)) : USUAL_POINTING_MS;
  return trains.size * onceMs;
}

function upFrom(night: NightFacts, target: string, atMs: number): number | null {
  return night.sky.curves.find((c) => c.target === target)?.up.find((u) => u.endMs > atMs)?.startMs ?? null;
}

/** Targets of the night that were above their limits meanwhile. */
function otherUp(night: NightFacts, target: string, span: Interval): string[] {
  return night.sky.curves
    .filter(
      (c) =>
        c.target !== target &&
        sum(
          c.up.map((u) => {
            const common = intersect(u, span);
            return common ? durationMs(common) : 0;
          }),
        ) >=
          0.8 * durationMs(span),
    )
    .map((c) => c.target);
}

function altitudes(frames: readonly JudgedFrame[]): string {
  const all = frames.flatMap((f) => f.sky?.altitudeDeg ?? []);
  // One decimal if whole degrees would equal its limit.
  const digits = Math.round(Math.max(...all)) >= Math.round(limitOf(frames)) ? 1 : 0;
  const [least, most] = [Math.min(...all).toFixed(digits), Math.max(...all).toFixed(digits)];
  return least === most ? `${least}°` : `${least}° to ${most}°`;
}

function limitOf(frames: readonly JudgedFrame[]): number {
  return Math.max(...frames.flatMap((f) => f.sky?.limitDeg ?? []));
}
