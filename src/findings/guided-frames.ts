/**
 * Frames with the guiding during them, for the findings that ask why it was rough.
 */
import { median, type Cause, type GuidingSummary, type JudgedFrame, type NightFacts } from '../model/index.js';

export interface GuidedFrame {
  readonly frame: JudgedFrame;
  readonly guiding: GuidingSummary;
  /** RMS in the train's own pixels. */
  readonly pixels: number;
  readonly rough: boolean;
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
    return [
      {
        frame,
        guiding,
        pixels: guiding.totalRmsArcsec / scale,
        rough: frame.causes.some((c) => c.kind === 'rough-guiding'),
      },
    ];
  });
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
