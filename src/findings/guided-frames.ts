/**
 * Frames with the guiding during them, for the findings that ask why it was rough.
 */
import {
  itemAt,
  median,
  partitionPoint,
  sum,
  type Cause,
  type GuidingSeries,
  type GuidingSummary,
  type Interval,
  type JudgedFrame,
  type NightFacts,
} from '../model/index.js';
import { isGrownByGuiding, jitterArcsec } from './grown-by-guiding.js';

/** Fewer samples in an exposure do not tell bursts from noise. */
const FEWEST_SAMPLES = 15;
/**
 * In bursts it is that an RMS is made of this many times what the middle of its samples would have it. Steady noise has
 * 1, a periodic error less. Common practice, no source.
 */
const BURSTS = 2;
/** Moments are no more than this of an exposure. */
const MOST_SHARE = 1 / 3;
/** Mean square over median square of errors that scatter normally on two axes: 1 / ln 2. */
const NORMAL_RATIO = 1 / Math.LN2;

export interface GuidedFrame {
  readonly frame: JudgedFrame;
  readonly guiding: GuidingSummary;
  /** RMS in the train's own pixels. */
  readonly pixels: number;
  /** Whether it was too rough, and harmed the stars where these were measured. */
  readonly rough: boolean;
  /** Whether nothing but the rough guiding harmed it. */
  readonly roughAlone: boolean;
  /** Whether a few large errors made it rough, and the rest of the exposure was calm. */
  readonly inBursts: boolean;
}

/** Lights whose guiding is known and was not disturbed by the mount's own motion. */
export function guidedFrames(night: NightFacts): GuidedFrame[] {
  const scales = new Map(night.gathered.trains.map((t) => [t.id, t.pixelScaleArcsec]));
  return night.accounts.lights.flatMap((frame): GuidedFrame[] => {
    const scale = scales.get(frame.train);
    const { guiding } = frame;
    if (
      !guiding ||
      scale === undefined ||
      frame.causes.some((c) => c.kind === 'mount-motion' || c.kind === 'guiding-off' || isInterrupted(frame, c))
    )
      return [];
    const harmed = frame.causes.map((c) => c.kind === 'rough-guiding' || isByGuiding(frame, c, scale, night));
    const rough = harmed.includes(true);
    return [
      {
        frame,
        guiding,
        pixels: guiding.totalRmsArcsec / scale,
        rough,
        roughAlone: rough && !harmed.includes(false),
        inBursts: rough && isInBursts(squaresIn(night.gathered.guiding, frame.exposure, median)),
      },
    ];
  });
}

const mean = (values: readonly number[]): number => sum(values) / values.length;

/** Squares of the errors' distance from their middle during a span (their mean, or their median), arcseconds². */
export function squaresIn(series: GuidingSeries | null, { startMs, endMs }: Interval, middle = mean): number[] {
  if (!series) return [];
  const first = partitionPoint(series.atMs, (t) => t >= startMs);
  const points: (readonly [number, number])[] = [];
  for (let i = first; i < series.atMs.length && itemAt(series.atMs, i) < endMs; i++) {
    const point = [itemAt(series.raArcsec, i), itemAt(series.decArcsec, i)] as const;
    if (point.every(Number.isFinite)) points.push(point);
  }
  const [ofRa, ofDec] = [middle(points.map(([ra]) => ra)), middle(points.map(([, dec]) => dec))];
  return points.map(([ra, dec]) => (ra - ofRa) ** 2 + (dec - ofDec) ** 2);
}

function isInBursts(squares: readonly number[]): boolean {
  if (squares.length < FEWEST_SAMPLES) return false;
  const meanSquare = mean(squares);
  // An error that goes to and fro is near its median half of the time, and as long far from it.
  if (squares.filter((square) => square > meanSquare).length > MOST_SHARE * squares.length) return false;
  return meanSquare >= BURSTS ** 2 * NORMAL_RATIO * median(squares);
}

/** Whether measured stars are harmed by what the samples show: the pixels have the word on such frames. */
function isByGuiding(frame: JudgedFrame, { kind }: Cause, scale: number, night: NightFacts): boolean {
  if (!frame.guiding || jitterArcsec(frame.guiding) <= night.gathered.rules.roughGuidingPixels * scale) return false;
  return kind === 'trailed' || (kind === 'swollen' && isGrownByGuiding(frame, night));
}

/** Whether trailed stars are named with an interruption: without one, the span of the cause is the exposure's own. */
function isInterrupted({ exposure }: JudgedFrame, { kind, span }: Cause): boolean {
  return kind === 'trailed' && (span.startMs !== exposure.startMs || span.endMs !== exposure.endMs);
}

/** Median RMS of frames, arcseconds; `NaN` for none. */
export function usualRms(frames: readonly GuidedFrame[]): number {
  return median(frames.map((f) => f.guiding.totalRmsArcsec));
}

/** `0.62″`. */
export function arcsec(value: number): string {
  return `${value.toFixed(2)}″`;
}
