/**
 * Every star stands twice, with one displacement: the mount moved while the shutter was open. Both images are round, so
 * that neither widths nor axis ratios tell.
 */
import { decimal, percent, type Rules } from '../../vocabulary/index.js';
import { durationMs } from '../interval.js';
import { sensorScaleArcsec } from '../gathered.js';
import { factsOf, type LossCause } from './cause.js';
import { mainDisturbance } from './evidence/disturbance.js';
import { interruptionText } from './evidence/interruption.js';
import { trailing } from './evidence/pixels.js';
import { SIGMA_PER_FWHM } from './evidence/sigma.js';
import type { ExposureFacts } from './facts.js';

/**
 * How far the second image draws the stars out, 1 − b/a by second moments: the share f at distance d adds f(1 − f)d²
 * along the way. `null` without one, or without a width to compare with.
 */
function drawnOf({ stars, usual }: Pick<ExposureFacts, 'stars' | 'usual'>): number | null {
  const second = stars?.doubled;
  const fwhm = usual?.fwhm ?? stars?.fwhm ?? null;
  if (second === undefined || fwhm === null) return null;
  const { x, y, share } = second;
  const added = share * (1 - share) * (x ** 2 + y ** 2);
  return 1 - 1 / Math.sqrt(1 + added / (fwhm * SIGMA_PER_FWHM) ** 2);
}

/**
 * Nearer than this many star widths (FWHM) and with less than this share of the light, a second image and a tail that
 * wind swept to one side look alike: of drawn tails, some were taken for second images up to 2.1 widths off, with up
 * to 15 % of the light.
 */
const TAIL = { fwhm: 2.5, share: 0.18 };

/** Whether the second image may be a tail instead. */
export function mayBeTail({ stars, usual }: Pick<ExposureFacts, 'stars' | 'usual'>): boolean {
  const second = stars?.doubled;
  const fwhm = usual?.fwhm ?? stars?.fwhm ?? null;
  if (second === undefined || fwhm === null) return false;
  return second.share < TAIL.share && Math.hypot(second.x, second.y) < TAIL.fwhm * fwhm;
}

function judge(facts: ExposureFacts, rules: Rules): 'doubtful' | 'lost' | null {
  const drawn = drawnOf(facts);
  // A trail is one harm, not two.
  if (drawn === null || drawn <= rules.displacementDoubtful || trailing(facts, rules) !== null) return null;
  const { count = 0, doubled } = facts.stars ?? {};
  const isPlain = doubled !== undefined && doubled.share > rules.doubledLostShare && count >= rules.minimumStars;
  return isPlain && drawn > rules.displacementLost ? 'lost' : 'doubtful';
}

export const doubled: LossCause = {
  id: 'doubled',
  judge,
  instances(frame, around, verdict) {
    const second = around.stars?.doubled;
    if (second === undefined) return [];
    const { rules } = around;
    const main = mainDisturbance([...around.motion, ...(around.guidingOff ?? [])], frame.exposure);
    const distance = Math.hypot(second.x, second.y);
    const scale = sensorScaleArcsec(around.train);
    const away = `${decimal(distance, 1)} px${scale === undefined ? '' : ` (${decimal(distance * scale, 1)}″)`}`;
    const facts = factsOf(frame, around);
    const drawn = drawnOf(facts);
    const isOpen = main === undefined && mayBeTail(facts);
    const moved = isOpen ? 'the mount moved, or wind pushed it to one side,' : 'the mount moved';
    const why =
      main === undefined
        ? `${moved} while the shutter was open, and nothing logged says when`
        : interruptionText(main, frame.train);
    return [
      {
        kind: 'doubled',
        verdict,
        span: main?.activity.span ?? frame.exposure,
        overlapMs: main?.ms ?? durationMs(frame.exposure),
        causedBy: main?.activity.causedBy,
        evidence:
          `every star appears twice${isOpen ? ' or has a tail' : ''}, ` +
          `with ${percent(second.share)} of its light ${away} from the rest; this elongates stars by ` +
          `${decimal(drawn, 2)}: doubtful above ${decimal(rules.displacementDoubtful, 2)}, lost above ` +
          `${decimal(rules.displacementLost, 2)} with more than ${percent(rules.doubledLostShare)} of the light; ` +
          why,
        certainty: 'measured',
        sources: [...frame.sources, ...(main?.activity.sources ?? [])],
      },
    ];
  },
};
