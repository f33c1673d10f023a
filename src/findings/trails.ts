/**
 * How long the trails of a train's stars are, and what they follow: the length of the exposure, and the drift of the
 * field from frame to frame.
 */
import {
  groupBy,
  lightsOf,
  median,
  ownValue,
  quantile,
  type JudgedFrame,
  type NightFacts,
  AGREEMENT_MIN,
} from '../model/index.js';
import { jitterArcsec } from './grown-by-guiding.js';
import { askedMs } from './trains.js';

/** Variance of an even trail of length 1 as squared full width at half maximum: 8 ln 2 / 12. */
const FWHM2_OF_TRAIL2 = (8 * Math.LN2) / 12;
/** Lengths that differ by less show no growth; the longest of a train against its shortest. */
const CLEARLY_LONGER = 1.5;
/** Of the trail of the longest exposures, squared: more grows with the exposure, less does not. Common practice. */
const GROWS = 0.5;
const STAYS = 0.1;
/** A drift that explains a trail lies in its direction within this, degrees, and is as long within a half. */
const SAME_DIRECTION_DEG = 20;
/** A drift's steps agree within this share, and so many of them do; others are dithers. Common practice, no source. */
const SAME_STEP = 0.35;
const MOST_STEPS = 0.5;
const FEWEST_STEPS = 5;
const LONGEST_PAUSE_MS = 60_000;
/** The longest sub is one that leaves this share of the frames that were trailed within the limit. */
const MOST = 0.9;

/** One frame's stars; px of the sensor. */
export interface Trail {
  readonly frame: JudgedFrame;
  readonly seconds: number;
  readonly elongation: number;
  /** Of the long axis, degrees. */
  readonly direction: number;
  /** Of an even trail that makes round stars that long. */
  readonly lengthPx: number;
  /** FWHM across the trail. */
  readonly acrossPx: number;
  readonly isTrailed: boolean;
}

/** Frames of one length. */
export interface TrailClass {
  readonly seconds: number;
  readonly trails: readonly Trail[];
  readonly lengthPx: number;
}

/** What makes the trails, if frames tell. */
export interface TrailGrowth {
  readonly by: 'lengths' | 'drift';
  /** Even trail of every frame, whatever its length, and growth. */
  readonly basePx: number;
  readonly pxPerSecond: number;
}

/** The trails of a train's lights, in order, without frames whose trail an interruption or the guiding explains. */
export function trailsOf(train: string, night: NightFacts): readonly Trail[] {
  const { rules, trains } = night.gathered;
  const scale = trains.find(({ id }) => id === train)?.pixelScaleArcsec;
  return lightsOf(night, train).flatMap((frame): Trail[] => {
    const stars = ownValue(night.stars?.frames, frame.id);
    if (!stars || stars.count < rules.minimumStars || isExplained(frame, scale, rules.roughGuidingPixels)) return [];
    const { fwhm, elongation, direction, agreement } = stars;
    if (fwhm === null || elongation === null || direction === null || agreement === null) return [];
    return [
      {
        frame,
        seconds: askedMs(frame) / 1000,
        elongation,
        direction,
        lengthPx: Math.sqrt((fwhm ** 2 * Math.max(0, elongation - 1 / elongation)) / FWHM2_OF_TRAIL2),
        acrossPx: fwhm / Math.sqrt(elongation),
        isTrailed: elongation > rules.trailedDoubtfulElongation && agreement > AGREEMENT_MIN,
      },
    ];
  });
}

const OTHER_CAUSES: ReadonlySet<string> = new Set(['mount-motion', 'guiding-off', 'rough-guiding', 'doubled']);

function isExplained(frame: JudgedFrame, scale: number | undefined, roughPixels: number): boolean {
  const { causes, guiding, exposure } = frame;
  // Without an interruption the span of the cause is the exposure itself.
  return (
    causes.some(
      ({ kind, span }) =>
        OTHER_CAUSES.has(kind) ||
        (kind === 'trailed' && (span.startMs !== exposure.startMs || span.endMs !== exposure.endMs)),
    ) ||
    (guiding != null && scale !== undefined && jitterArcsec(guiding) > roughPixels * scale)
  );
}

/** Frames by their length, the shortest first; lengths with fewer frames are left out. */
export function classesOf(trails: readonly Trail[], minimumFrames: number): readonly TrailClass[] {
  return [...groupBy(trails, ({ seconds }) => Math.round(seconds))]
    .filter(([, own]) => own.length >= minimumFrames)
    .map(([seconds, own]) => ({ seconds, trails: own, lengthPx: median(own.map(({ lengthPx }) => lengthPx)) }))
    .sort((a, b) => a.seconds - b.seconds);
}

/** `grows`, `stays` or `null` where the lengths do not tell. */
export function growthByLength(classes: readonly TrailClass[]): TrailGrowth | 'stays' | null {
  const [shortest, longest] = [classes[0], classes.at(-1)];
  if (!shortest || !longest || longest.seconds < CLEARLY_LONGER * shortest.seconds) return null;
  // Variances add: trail² = base² + (rate × seconds)².
  const rate2 = (longest.lengthPx ** 2 - shortest.lengthPx ** 2) / (longest.seconds ** 2 - shortest.seconds ** 2);
  const ofLongest = (rate2 * longest.seconds ** 2) / longest.lengthPx ** 2;
  if (ofLongest <= STAYS) return 'stays';
  if (ofLongest < GROWS) return null;
  const base2 = Math.max(0, shortest.lengthPx ** 2 - rate2 * shortest.seconds ** 2);
  return { by: 'lengths', basePx: Math.sqrt(base2), pxPerSecond: Math.sqrt(rate2) };
}

/**
 * The drift of the field from frame to frame, if the trails lie along it and are as long. Dithers between some of the
 * frames are steps of another kind.
 */
export function growthByDrift({ trails, seconds, lengthPx }: TrailClass, night: NightFacts): TrailGrowth | null {
  const usualDirection = directionOf(trails.filter(({ isTrailed }) => isTrailed));
  const steps = trails.slice(1).flatMap((after, i) => {
    const before = trails[i];
    return before === undefined ? [] : (stepOf(before, after, night) ?? []);
  });
  const usual = median(steps.map(({ pxPerSecond }) => pxPerSecond));
  const alike = steps.filter(
    ({ pxPerSecond, direction }) =>
      Math.abs(pxPerSecond - usual) <= SAME_STEP * usual && apartDeg(direction, usualDirection) <= SAME_DIRECTION_DEG,
  );
  if (steps.length < FEWEST_STEPS || alike.length < MOST_STEPS * steps.length) return null;
  const pxPerSecond = median(alike.map((step) => step.pxPerSecond));
  const driftPx = pxPerSecond * seconds;
  if (driftPx < lengthPx / 2 || driftPx > lengthPx * 1.5) return null;
  return { by: 'drift', basePx: Math.sqrt(Math.max(0, lengthPx ** 2 - driftPx ** 2)), pxPerSecond };
}

/** How the field moved from one frame to the next, px of the sensor; `null` where that is not known. */
function stepOf(
  { frame: before }: Trail,
  { frame: after }: Trail,
  night: NightFacts,
): { readonly pxPerSecond: number; readonly direction: number } | null {
  const [from, to] = [before, after].map(({ id }) => ownValue(night.stars?.frames, id)?.shift);
  const seconds = (after.exposure.startMs - before.exposure.startMs) / 1000;
  const pauseMs = after.exposure.startMs - before.exposure.endMs;
  if (!from || !to || before.target !== after.target || pauseMs > LONGEST_PAUSE_MS || seconds <= 0) return null;
  const binning = after.header?.binning ?? { x: 1, y: 1 };
  const [x, y] = [(to.x - from.x) * binning.x, (to.y - from.y) * binning.y];
  return { pxPerSecond: Math.hypot(x, y) / seconds, direction: (Math.atan2(y, x) * 180) / Math.PI };
}

/** The usual direction of trails, degrees from 0 to 180: the median around the first. */
export function directionOf(trails: readonly Trail[]): number {
  const [one] = trails;
  if (one === undefined) return NaN;
  const first = one.direction;
  const turned = median(trails.map(({ direction }) => ((((direction - first + 90) % 180) + 180) % 180) - 90));
  return (((first + turned) % 180) + 180) % 180;
}

/** Between two axes, degrees, 0 to 90. */
export function apartDeg(a: number, b: number): number {
  const apart = Math.abs(a - b) % 180;
  return Math.min(apart, 180 - apart);
}

/** The longest exposure with which a frame's stars would have stayed within an axis ratio, seconds; 0: none. */
export function longestSeconds({ lengthPx, acrossPx, seconds }: Trail, { basePx }: TrailGrowth, ratio: number): number {
  const room2 = (acrossPx ** 2 * (ratio ** 2 - 1)) / FWHM2_OF_TRAIL2 - basePx ** 2;
  const grown2 = lengthPx ** 2 - basePx ** 2;
  if (room2 <= 0) return 0;
  return grown2 <= 0 ? Infinity : seconds * Math.sqrt(room2 / grown2);
}

/** One that suits most trailed frames, in usual steps, or a length that the train uses anyway; 0 if none does. */
export function subSeconds(
  trails: readonly Trail[],
  growth: TrailGrowth,
  ratio: number,
  used: readonly number[],
): number {
  const longest = quantile(
    trails.map((trail) => longestSeconds(trail, growth, ratio)),
    1 - MOST,
  );
  if (!Number.isFinite(longest)) return 0;
  const known = used.filter((seconds) => seconds <= longest && seconds >= longest / 2);
  if (known.length > 0) return Math.max(...known);
  const step = longest < 60 ? 5 : longest < 120 ? 15 : 30;
  return Math.floor(longest / step) * step;
}
