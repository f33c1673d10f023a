/**
 * The exposure is shorter than asked: aborted, or the header states less than the log wanted.
 */
import { duration, durationMs } from '../../model/index.js';
import type { LossCause } from './cause.js';

/** Shorter by no more than this is rounding, not a cut: half a second or one percent, the larger. */
const ROUNDING_MS = 500;
const ROUNDING_SHARE = 0.01;

export const cutShort: LossCause = {
  id: 'cut-short',
  applies(frame) {
    const lengthMs = durationMs(frame.exposure);
    const asked = frame.askedMs;
    const short = asked !== undefined && asked - lengthMs > Math.max(ROUNDING_MS, ROUNDING_SHARE * asked);
    if (!frame.aborted && !short) return [];
    const ofAsked = asked === undefined ? '' : ` of ${duration(asked)}`;
    return [
      {
        kind: 'cut-short',
        verdict: 'lost',
        span: frame.exposure,
        overlapMs: lengthMs,
        evidence: frame.aborted
          ? `the exposure was aborted after ${duration(lengthMs)}${ofAsked}`
          : `the header states ${duration(lengthMs)}${ofAsked} asked for`,
        certainty: 'measured',
        sources: frame.sources,
      },
    ];
  },
};
