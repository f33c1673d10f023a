/**
 * The stars are drawn out in one direction, more than usual. The interruption that took the most of the exposure is
 * named with the train that caused it.
 */
import { decimal } from '../../vocabulary/index.js';
import { durationMs } from '../interval.js';
import type { LossCause } from './cause.js';
import { mainDisturbance } from './evidence/disturbance.js';
import { interruptionText } from './evidence/interruption.js';
import { trailing } from './evidence/pixels.js';
import { shapeText } from './evidence/words.js';

export const trailed: LossCause = {
  id: 'trailed',
  judge: (facts, rules) => trailing(facts, rules),
  instances(frame, around, verdict) {
    const { rules } = around;
    const main = mainDisturbance([...around.motion, ...(around.guidingOff ?? [])], frame.exposure);
    const limit = `lost above ${decimal(rules.trailedLostElongation, 2)} and ${decimal(rules.trailedLostRatio, 2)} × the usual`;
    const why = main === undefined ? 'no interruption is known' : interruptionText(main, frame.train);
    return [
      {
        kind: 'trailed',
        verdict,
        span: main?.activity.span ?? frame.exposure,
        overlapMs: main?.ms ?? durationMs(frame.exposure),
        causedBy: main?.activity.causedBy,
        evidence: `${shapeText(around)}; ${limit}; ${why}`,
        certainty: 'measured',
        sources: [...frame.sources, ...(main?.activity.sources ?? [])],
      },
    ];
  },
};
