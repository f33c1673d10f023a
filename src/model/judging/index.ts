/**
 * The rules of verdict, one file per cause: the account judges frames with them, and the replay its exposures. A kind
 * in the vocabulary without a file here does not compile.
 */
import { CAUSE_KINDS, type CauseKind, type Rules, type Verdict } from '../../vocabulary/index.js';
import type { Frame } from '../frame.js';
import { applyCause, factsOf, NOTHING, type Applied, type LossCause, type Surroundings } from './cause.js';
import { cutShort } from './cut-short.js';
import { dimmed } from './dimmed.js';
import { doubled } from './doubled.js';
import type { ExposureFacts } from './facts.js';
import { guidingOff } from './guiding-off.js';
import { low } from './low.js';
import { mountMotion } from './mount-motion.js';
import { noSky } from './no-sky.js';
import { otherFilter } from './other-filter.js';
import { roughGuiding } from './rough-guiding.js';
import { swollen } from './swollen.js';
import { trailed } from './trailed.js';
import { twilight } from './twilight.js';

const BY_KIND: Readonly<Record<CauseKind, LossCause>> = {
  'mount-motion': mountMotion,
  'guiding-off': guidingOff,
  'cut-short': cutShort,
  'no-sky': noSky,
  'rough-guiding': roughGuiding,
  trailed,
  doubled,
  swollen,
  dimmed,
  'other-filter': otherFilter,
  low,
  twilight,
};

/** Every cause, in the order of the vocabulary: their precedence. */
export const LOSS_CAUSES: readonly LossCause[] = CAUSE_KINDS.map((kind) => BY_KIND[kind]);

/** The verdict on a frame, and the reasons. */
export interface JudgedLight extends Applied {
  readonly verdict: Verdict;
}

const UNHARMED: JudgedLight = { verdict: 'kept', ...NOTHING };

/** Judges one frame by every cause: kept unless one objects, lost when any loses it. */
export function judgeFrame(frame: Frame, around: Surroundings): JudgedLight {
  const facts = factsOf(frame, around);
  const applied: Applied[] = [];
  for (const cause of LOSS_CAUSES) {
    const one = applyCause(cause, frame, around, facts);
    if (one !== NOTHING) applied.push(one);
  }
  // Most frames of most nights: no lists are created for them.
  if (applied.length === 0) return UNHARMED;
  const causes = applied.flatMap((a) => a.causes);
  const verdict = causes.some((c) => c.verdict === 'lost') ? 'lost' : causes.length > 0 ? 'doubtful' : 'kept';
  return { verdict, causes, cleared: applied.flatMap((a) => a.cleared) };
}

/** Whether an exposure passes every cause: what the replay counts as kept. */
export function isKept(facts: ExposureFacts, rules: Rules, causes: readonly LossCause[] = LOSS_CAUSES): boolean {
  // The replay calls this for every exposure of every run.
  for (const cause of causes) if (typeof cause.judge(facts, rules) === 'string') return false;
  return true;
}

export {
  applyCause,
  factsOf,
  factsOfMotion,
  touchedMs,
  type Applied,
  type Judgement,
  type LossCause,
  type Surroundings,
} from './cause.js';
export { mayBeTail } from './doubled.js';
export { AGREEMENT_MIN } from './evidence/pixels.js';
export { guidingOffLimitMs, roughGuidingArcsec, type ExposureFacts, type SkyFacts, type UsualStars } from './facts.js';
export { leastTouchedMs, NO_LEEWAY, restsOnClock, type Leeway } from './leeway.js';
export { displacementOf, driftElongation, type Displacement } from './evidence/displacement.js';
export { starSigmas } from './evidence/sigma.js';
export { trailing } from './evidence/pixels.js';
export { usualStars } from './evidence/usual.js';
export { fewStarsNotices } from './evidence/few-stars.js';
export { smallGroupNotices } from './evidence/small-groups.js';
export { wholeNightNotices } from './evidence/whole-night.js';
