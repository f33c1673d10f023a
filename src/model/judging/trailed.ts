/**
 * The stars are elongated in one direction, more than usual. The longest interruption of the exposure is named with the
 * train that caused it.
 */
import { decimal, type Rules } from '../../vocabulary/index.js';
import { durationMs } from '../interval.js';
import type { LossCause } from './cause.js';
import type { Displacement } from './evidence/displacement.js';
import { mainDisturbance } from './evidence/disturbance.js';
import { interruptionText } from './evidence/interruption.js';
import { trailing } from './evidence/pixels.js';
import { shapeText } from './evidence/words.js';
import type { ExposureFacts } from './facts.js';

/** The axis ratio that a movement gives a round star. */
const drawnRatio = ({ drawn }: Displacement): number => 1 / (1 - drawn);

/**
 * Stars that were still for most of the exposure have a bright core, and their shape is less informative than the trail
 * next to it. If the stars are trailed and the guiding samples give the amount, that is compared with the limits.
 */
function isLongerByMovement(
  { usual, displacement }: Pick<ExposureFacts, 'usual' | 'displacement'>,
  rules: Rules,
): boolean {
  if (displacement === null || usual?.elongation === null || usual === null) return false;
  const ratio = drawnRatio(displacement);
  return ratio > rules.trailedLostElongation && ratio > rules.trailedLostRatio * usual.elongation;
}

export const trailed: LossCause = {
  id: 'trailed',
  judge(facts, rules) {
    const seen = trailing(facts, rules);
    return seen === 'doubtful' && isLongerByMovement(facts, rules) ? 'lost' : seen;
  },
  instances(frame, around, verdict) {
    const { rules } = around;
    const main = mainDisturbance([...around.motion, ...(around.guidingOff ?? [])], frame.exposure);
    const limit =
      `lost above ${decimal(rules.trailedLostElongation, 2)} and ${decimal(rules.trailedLostRatio, 2)} × the ` +
      'usual';
    const drawn =
      around.displacement !== null && isLongerByMovement(around, rules) ? drawnRatio(around.displacement) : null;
    const longer = drawn === null ? '' : `; the movement in the guiding samples would give ${decimal(drawn, 2)}`;
    const why = main === undefined ? 'no interruption is known' : interruptionText(main, frame.train);
    return [
      {
        kind: 'trailed',
        verdict,
        span: main?.activity.span ?? frame.exposure,
        overlapMs: main?.ms ?? durationMs(frame.exposure),
        causedBy: main?.activity.causedBy,
        evidence: `${shapeText(around)}; ${limit}${longer}; ${why}`,
        certainty: 'measured',
        sources: [...frame.sources, ...(main?.activity.sources ?? [])],
      },
    ];
  },
};
