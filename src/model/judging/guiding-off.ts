/**
 * Guiding was off during the exposure: resting, the star lost, stopped, or not yet settled after a start. A moment of
 * it
 * goes unnoticed, a short stretch makes the frame doubtful, a long one loses it.
 */
import { duration } from '../../vocabulary/index.js';
import { durationMs } from '../interval.js';
import { touchedMs, touching, type LossCause } from './cause.js';
import { byDisplacement, drawnText } from './evidence/displacement.js';
import { disturbanceText, mainDisturbance } from './evidence/disturbance.js';
import { starsAreRound, trailing } from './evidence/pixels.js';
import { clearedText } from './evidence/words.js';
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
    const touched = touching(off, frame.exposure);
    const all = touched.length > 1 ? `${duration(touchedMs(off, frame.exposure))} in all, ` : '';
    const limit = `${all}${
      displacement === null
        ? `lost above ${duration(guidingOffLimitMs(durationMs(frame.exposure), rules))}`
        : drawnText(displacement, rules)
    }`;
    return touched.map(({ activity, ms }) => ({
      kind: 'guiding-off' as const,
      verdict,
      span: activity.span,
      overlapMs: ms,
      causedBy: activity.causedBy,
      evidence: `${disturbanceText(activity, frame.train)} for ${duration(ms)} of the exposure (${limit})`,
      certainty: activity.certainty,
      sources: activity.sources,
    }));
  },
  whyCleared(frame, around, by) {
    const main = mainDisturbance(around.guidingOff ?? [], frame.exposure);
    if (main === undefined) return '';
    const what = `${disturbanceText(main.activity, frame.train)} for ${duration(main.ms)} of the exposure`;
    return clearedText(what, around, by);
  },
};
