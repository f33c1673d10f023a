/**
 * Refocuses with what is known of the stars before and after: from the log, or from the headers around them.
 */
import type { ActivityOf } from './activity.js';
import type { Interval } from './interval.js';
import { lightsOf, type AccountedNight } from './night.js';
import { fwhmPixels } from './star-size.js';
import { median } from './statistics.js';
import type { JudgedFrame } from './accounts.js';

export interface FocusRun {
  readonly train: string;
  readonly span: Interval;
  readonly activity: ActivityOf<'focus'>;
  /** Star sizes in one unit: before it, after it, and after the refocus before it; `null` where unknown. */
  readonly sizeBefore: number | null;
  readonly sizeAfter: number | null;
  readonly sizeAtLast: number | null;
  /** The filter was changed in the same pause, before it. */
  readonly afterFilterChange: boolean;
  /** Temperature at the focuser, °C. */
  readonly temperatureC: number | null;
}

/** Frames around a refocus whose median size stands for it. */
const AROUND = 3;

/** One train's refocuses, sorted. */
export function focusRunsOf(night: Pick<AccountedNight, 'timeline' | 'accounts'>, train: string): FocusRun[] {
  const own = night.timeline.activities.filter((a) => a.train === train);
  const runs = own.filter((a) => a.kind === 'focus');
  const filters = own.filter((a) => a.kind === 'filter');
  const lights = lightsOf(night, train);
  return runs.map((activity, i): FocusRun => {
    const { span, facts } = activity;
    const previous = runs[i - 1];
    const before = lights.filter(
      (f) => f.exposure.endMs <= span.startMs + 1000 && f.exposure.endMs > (previous?.span.endMs ?? -Infinity),
    );
    const after = lights.filter(
      (f) => f.exposure.startMs >= span.endMs - 1000 && f.exposure.startMs < (runs[i + 1]?.span.startMs ?? Infinity),
    );
    const logged = facts?.sizeBefore !== undefined && facts.sizeAfter !== undefined;
    const last = before.at(-1);
    return {
      train,
      span,
      activity,
      sizeBefore: logged ? (facts.sizeBefore ?? null) : sizeOf(before.slice(-AROUND)),
      sizeAfter: logged ? (facts.sizeAfter ?? null) : sizeOf(after.slice(0, AROUND)),
      // Sizes of the log and of headers are not of one measure: compared are only those of one kind.
      sizeAtLast: logged ? (previous?.facts?.sizeAfter ?? null) : sizeOf(before.slice(0, AROUND)),
      afterFilterChange:
        last !== undefined &&
        filters.some((f) => f.span.startMs >= last.exposure.endMs - 1000 && f.span.startMs <= span.startMs + 1000),
      temperatureC: facts?.temperature ?? last?.header?.focusTemperatureC ?? null,
    };
  });
}

function sizeOf(frames: readonly JudgedFrame[]): number | null {
  const sizes = frames.flatMap((f) => fwhmPixels(f.header) ?? f.header?.starSize?.pixels ?? []);
  return sizes.length === 0 ? null : median(sizes);
}

/** Growth of the stars from which on a refocus is due, as a share. Common practice, no source. */
export const FOCUS_GROWTH = 0.1;

/** How well a program knows a size that it refocuses by, as a share of it. Common practice, no source. */
const SIZE_ERROR = 0.02;

/**
 * Neither grown before nor shrunk by it, by less than what is due and the error of the sizes: a program that refocuses
 * at a tenth may well have written down nine hundredths. One after a filter change is another matter: it makes up for a
 * missing offset.
 */
export function isNeedlessFocus(
  { sizeBefore, sizeAfter, sizeAtLast, afterFilterChange }: FocusRun,
  growth = FOCUS_GROWTH,
): boolean {
  if (afterFilterChange || sizeBefore === null || sizeAfter === null || sizeAtLast === null) return false;
  const least = 1 + Math.max(0, growth - SIZE_ERROR);
  return sizeBefore < sizeAtLast * least && sizeAfter > sizeBefore / least;
}
