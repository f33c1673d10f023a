/**
 * Refocuses with the star sizes before and after: from the log, from the headers around them, or from the pixels of the
 * frames around them.
 */
import type { ActivityOf } from './activity.js';
import type { Interval } from './interval.js';
import { lightsOf, type AccountedNight } from './night.js';
import { ownValue } from './collections.js';
import { fwhmPixels, recordedFwhm } from './star-size.js';
import type { FrameStars } from './stars.js';
import { median } from './statistics.js';
import type { JudgedFrame } from './accounts.js';

export interface FocusRun {
  readonly train: string;
  readonly span: Interval;
  readonly activity: ActivityOf<'focus'>;
  /** Star sizes on one scale: before it, after it, and after the previous refocus; `null` if unknown. */
  readonly sizeBefore: number | null;
  readonly sizeAfter: number | null;
  readonly sizeAtLast: number | null;
  readonly sizesBy: 'log' | 'header' | 'pixels';
  /** The filter was changed in the same pause, before it. */
  readonly afterFilterChange: boolean;
  /** Temperature at the focuser, °C. */
  readonly temperatureC: number | null;
}

/** Number of frames around a refocus whose median size is used. */
const AROUND = 3;

/** One train's refocuses, sorted. */
export function focusRunsOf(night: Pick<AccountedNight, 'timeline' | 'accounts' | 'stars'>, train: string): FocusRun[] {
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
      // Sizes from log, headers and pixels are on different scales: only those of one kind are compared.
      ...(logged
        ? {
            sizeBefore: facts.sizeBefore ?? null,
            sizeAfter: facts.sizeAfter ?? null,
            sizeAtLast: previous?.facts?.sizeAfter ?? null,
            sizesBy: 'log',
          }
        : (sizesIn(before, after, 'header', sizeInHeader) ?? sizesInPixels(before, after, night))),
      afterFilterChange:
        last !== undefined &&
        filters.some((f) => f.span.startMs >= last.exposure.endMs - 1000 && f.span.startMs <= span.startMs + 1000),
      temperatureC: facts?.temperature ?? last?.header?.focusTemperatureC ?? null,
    };
  });
}

/** With fewer stars a median depends on a single one. Common practice, no source. */
const FEWEST_STARS = 5;
/** Widths less certain than this, as a fraction, do not show half a tenth of growth. */
const SURE_SHARE = 0.025;

/** A frame's width if enough stars tell it, and tell it well enough: px of the sensor. */
function sureFwhm(stars: FrameStars | undefined): number | undefined {
  if (!stars || stars.count < FEWEST_STARS || stars.fwhm === null || stars.fwhmUncertainty === null) return undefined;
  return stars.fwhmUncertainty <= SURE_SHARE * stars.fwhm ? stars.fwhm : undefined;
}

type Sizes = Pick<FocusRun, 'sizeBefore' | 'sizeAfter' | 'sizeAtLast' | 'sizesBy'>;
type SizeOf = (frame: JudgedFrame) => number | undefined;

/** Medians of the frames at the ends of an interval, and of the first after it; none without sizes. */
function sizesIn(
  before: readonly JudgedFrame[],
  after: readonly JudgedFrame[],
  sizesBy: Sizes['sizesBy'],
  sizeOf: SizeOf,
  around = AROUND,
): Sizes | undefined {
  const [sizeBefore = null, sizeAfter = null, sizeAtLast = null] = [
    before.slice(-AROUND).reverse(),
    after.slice(0, AROUND),
    before.slice(0, AROUND),
  ].map((frames) => {
    // The nearest come first.
    const sizes = frames.flatMap((f) => sizeOf(f) ?? []).slice(0, around);
    return sizes.length === 0 ? null : median(sizes);
  });
  return sizeBefore === null && sizeAfter === null ? undefined : { sizeBefore, sizeAfter, sizeAtLast, sizesBy };
}

const sizeInHeader: SizeOf = (f) => fwhmPixels(f.header) ?? f.header?.starSize?.pixels;

/**
 * The same from the pixels, using frames of one target and filter with no objection other than their size, scaled to
 * the zenith: between two refocuses the air mass alone may make stars a tenth larger.
 */
function sizesInPixels(
  before: readonly JudgedFrame[],
  after: readonly JudgedFrame[],
  { stars }: Pick<AccountedNight, 'stars'>,
): Sizes {
  const last = before.at(-1);
  const isAlike = (f: JudgedFrame): boolean =>
    f.filter === last?.filter && f.target === last?.target && f.causes.every(({ kind }) => kind === 'swollen');
  const measured: SizeOf = (f) => {
    const fwhm = isAlike(f) ? sureFwhm(ownValue(stars?.frames, f.id)) : undefined;
    return fwhm && recordedFwhm(fwhm, f.header?.binning) / Math.max(1, f.sky?.airmass ?? 1) ** 0.6;
  };
  // With few frames the median of three would be the same at either end.
  const around = Math.max(1, Math.min(AROUND, Math.floor(before.length / 4)));
  return (
    sizesIn(before, after, 'pixels', measured, around) ?? {
      sizeBefore: null,
      sizeAfter: null,
      sizeAtLast: null,
      sizesBy: 'pixels',
    }
  );
}

/** Growth of the stars at which a refocus is due, as a fraction. Common practice, no source. */
export const FOCUS_GROWTH = 0.1;

/** Accuracy of the size that a program refocuses by, as a fraction. Common practice, no source. */
const SIZE_ERROR = 0.02;

/**
 * Growth seen in the pixels, as a fraction of the limit: the median of three frames is neither the first nor the last.
 */
const PIXEL_SHARE = 0.5;

/**
 * Neither grown before nor reduced by it, by less than the limit minus the error of the sizes: a program that refocuses
 * at a tenth may have logged nine hundredths, and the pixels in between show even less. One after a filter change is
 * different: it compensates for a missing offset.
 */
export function isNeedlessFocus(
  { sizeBefore, sizeAfter, sizeAtLast, sizesBy, afterFilterChange }: FocusRun,
  growth = FOCUS_GROWTH,
): boolean {
  if (afterFilterChange || sizeBefore === null || sizeAfter === null || sizeAtLast === null) return false;
  const least = 1 + Math.max(0, sizesBy === 'pixels' ? growth * PIXEL_SHARE : growth - SIZE_ERROR);
  return sizeBefore < sizeAtLast * least && sizeAfter > sizeBefore / least;
}
