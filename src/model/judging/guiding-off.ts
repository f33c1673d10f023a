/**
 * Guiding was off during the exposure: resting, the star lost, stopped, or not yet settled after a start. A moment of
 * it goes unnoticed, a short stretch makes the frame doubtful, a long one loses it.
 */
import { duration } from '../../vocabulary/index.js';
import { durationMs } from '../interval.js';
import { touchedMs, touching, type LossCause } from './cause.js';
import { byDisplacement, drawnText } from './evidence/displacement.js';
import { interruptionCauses, whyInterruptionCleared } from './evidence/interruption.js';
import { starsAreRound, trailing } from './evidence/pixels.js';
import { guidingOffLimitMs } from './facts.js';

export const guidingOff: LossCause = {
  id: 'guiding-off',
  judge(facts, rules) {
    const { unguidedMs, lengthMs, displacement } = facts;
    if (unguidedMs === null || unguidedMs <= rules.guidingOffNoticeSeconds * 1000) return null;
    // What trailed stars are worth, 'trailed' says; it names the interruption.
    if (trailing(facts, rules) !== null) return null;
    if (starsAreRound(facts, rules)) return { clearedBy: 'pixels' };
    const seen = byDisplacement(displacement, rules);
    if (seen !== null) return seen;
    return unguidedMs > guidingOffLimitMs(lengthMs, rules) ? 'lost' : 'doubtful';
  },
  instances(frame, { guidingOff: spans, rules, displacement }, verdict) {
    const off = spans ?? [];
    const all = touching(off, frame.exposure).length > 1 ? `${duration(touchedMs(off, frame.exposure))} in all, ` : '';
    const limit = `${all}${
      displacement === null
        ? `lost above ${duration(guidingOffLimitMs(durationMs(frame.exposure), rules))}`
        : drawnText(displacement, rules)
    }`;
    return interruptionCauses('guiding-off', off, frame, verdict, limit);
  },
  whyCleared(frame, around, by) {
    return whyInterruptionCleared(around.guidingOff ?? [], frame, around, by);
  },
};
