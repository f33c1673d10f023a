/**
 * The exposure is shorter than requested: aborted, or the header states less than the log requested. Or its file is
 * truncated before the last pixel.
 */
import { duration, fileSize } from '../../vocabulary/index.js';
import { durationMs } from '../interval.js';
import type { Frame } from '../frame.js';
import type { LossCause } from './cause.js';
import { wholeFrame } from './evidence/whole-frame.js';

/** Differences up to this are rounding: half a second or one percent, whichever is larger. */
const ROUNDING_MS = 500;
const ROUNDING_SHARE = 0.01;

export const cutShort: LossCause = {
  id: 'cut-short',
  judge({ aborted, isCutOff, askedMs, lengthMs }) {
    const isShort = askedMs !== null && askedMs - lengthMs > Math.max(ROUNDING_MS, ROUNDING_SHARE * askedMs);
    return aborted || isCutOff || isShort ? 'lost' : null;
  },
  instances(frame, _around, verdict) {
    return [wholeFrame('cut-short', frame, verdict, evidenceOf(frame))];
  },
};

function evidenceOf({ aborted, askedMs, exposure, header }: Frame): string {
  const length = duration(durationMs(exposure));
  const ofAsked = askedMs === undefined ? '' : ` of ${duration(askedMs)}`;
  if (aborted === true && askedMs !== undefined && durationMs(exposure) >= askedMs)
    return `the exposure of ${length} was finished, but the log shows no file written`;
  if (aborted === true) return `the exposure was aborted after ${length}${ofAsked}`;
  if (header?.isCutOff === true) {
    return `the file is truncated after ${fileSize(header.sizeBytes)}: pixels that its header describes are missing`;
  }
  return `the header states ${length}${ofAsked} asked for`;
}
