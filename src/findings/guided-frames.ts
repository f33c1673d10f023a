/** Frames with the guiding during them, for the findings on rough guiding. */
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

/** Fewer samples in an exposure do not distinguish bursts from noise. */
const FEWEST_SAMPLES = 15;
/**
 * Guiding has bursts if its RMS is this many times what the median of its samples implies. Steady noise has 1, a
 * periodic error less. Common practice, no source.
 */
const BURSTS = 2;
/** Bursts take at most this fraction of an exposure. */
const MOST_SHARE = 1 / 3;
/** Mean square over median square of normally distributed errors on two axes: 1 / ln 2. */
const NORMAL_RATIO = 1 / Math.LN2;

export interface GuidedFrame {
  readonly frame: JudgedFrame;
  readonly guiding: GuidingSummary;
  /** RMS in the train's own pixels. */
  readonly pixels: number;
  /** Whether it was too rough, and harmed the stars if these were measured. */
  readonly rough: boolean;
  /** Whether the frame was harmed only by rough guiding. */
  readonly roughAlone: boolean;
  /** Whether a few large errors made it rough, while the rest of the exposure was calm. */
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

/** Squared distances of the errors from their centre during a span (mean or median), arcseconds². */
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
  // An oscillating error is near its median half of the time, and far from it otherwise.
  if (squares.filter((square) => square > meanSquare).length > MOST_SHARE * squares.length) return false;
  return meanSquare >= BURSTS ** 2 * NORMAL_RATIO * median(squares);
}

/** Whether measured stars confirm the harm that the samples indicate: on such frames the pixels decide. */
function isByGuiding(frame: JudgedFrame, { kind }: Cause, scale: number, night: NightFacts): boolean {
  if (!frame.guiding || jitterArcsec(frame.guiding) <= night.gathered.rules.roughGuidingPixels * scale) return false;
  return kind === 'trailed' || (kind === 'swollen' && isGrownByGuiding(frame, night));
}

/** Whether trailed stars coincide with an interruption: without one, the span of the cause is the exposure itself. */
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
