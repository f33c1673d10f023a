/**
 * The exposure is shorter than asked: aborted, or the header states less than the log wanted.
 */
import { duration } from '../../vocabulary/index.js';
import { durationMs } from '../interval.js';
import type { LossCause } from './cause.js';

/** Shorter by no more than this is rounding, not a cut: half a second or one percent, the larger. */
const ROUNDING_MS = 500;
const ROUNDING_SHARE = 0.01;

export const cutShort: LossCause = {
  id: 'cut-short',
  judge({ aborted, askedMs, lengthMs }) {
    const isShort = askedMs !== null && askedMs - lengthMs > Math.max(ROUNDING_MS, ROUNDING_SHARE * askedMs);
    return aborted || isShort ? 'lost' : null;
  },
  instances(frame, _around, verdict) {
    const lengthMs = durationMs(frame.exposure);
    const ofAsked = frame.askedMs === undefined ? '' : ` of ${duration(frame.askedMs)}`;
    return [
      {
        kind: 'cut-short',
        verdict,
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
