/**
 * The frame has the starlight and the sky of another filter's frames: the wheel did not turn.
 */
import type { LossCause } from './cause.js';
import { wholeFrame } from './evidence/whole-frame.js';

export const otherFilter: LossCause = {
  id: 'other-filter',
  judge: ({ stars }) => (stars?.takenThrough === undefined ? null : 'doubtful'),
  instances(frame, { stars }, verdict) {
    const named = frame.filter ?? 'no filter';
    return [
      wholeFrame(
        'other-filter',
        frame,
        verdict,
        `it names ${named} and has the starlight and the sky of the frames through ` +
          `${stars?.takenThrough ?? 'another filter'}, many times those of others that name ${named}: the filter ` +
          'wheel may not have turned',
      ),
    ];
  },
};
