/**
 * The frame has the starlight and the sky of another filter's frames: the wheel did not turn.
 */
import { durationMs } from '../interval.js';
import type { LossCause } from './cause.js';

export const otherFilter: LossCause = {
  id: 'other-filter',
  judge: ({ stars }) => (stars?.takenThrough === undefined ? null : 'doubtful'),
  instances(frame, { stars }, verdict) {
    const named = frame.filter ?? 'no filter';
    return [
      {
        kind: 'other-filter',
        verdict,
        span: frame.exposure,
        overlapMs: durationMs(frame.exposure),
        evidence:
          `it names ${named} and has the starlight and the sky of the frames through ` +
          `${stars?.takenThrough ?? 'another filter'}, many times those of others that name ${named}: the filter ` +
          'wheel may not have turned',
        certainty: 'measured',
        sources: frame.sources,
      },
    ];
  },
};
