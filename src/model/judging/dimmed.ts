/**
 * The stars are fainter than those of the group's best third, or most of them are gone: cloud, dew, a low target.
 */
import { counted, decimal, whole, type Rules } from '../../vocabulary/index.js';
import { durationMs } from '../interval.js';
import type { LossCause } from './cause.js';
import type { ExposureFacts } from './facts.js';

/** Too few of the group's stars are left. With few in the best third a missing one says nothing. */
function areStarsGone({ stars, usual }: Pick<ExposureFacts, 'stars' | 'usual'>, rules: Rules): boolean {
  if (stars === null || usual === null || usual.count === null || usual.count < rules.minimumStars) return false;
  return stars.count < rules.dimmedLostStars * usual.count;
}

export const dimmed: LossCause = {
  id: 'dimmed',
  judge({ stars, usual }, rules) {
    if (stars === null || usual === null) return null;
    if (areStarsGone({ stars, usual }, rules)) return 'lost';
    const { flux } = stars;
    if (flux === null || flux >= rules.dimmedDoubtfulFlux) return null;
    return flux < rules.dimmedLostFlux ? 'lost' : 'doubtful';
  },
  instances(frame, around, verdict) {
    const { stars, usual, rules, sky } = around;
    if (stars === null || usual === null) return [];
    const air = sky === null ? '' : `, at airmass ${decimal(sky.airmass, 2)}`;
    const flux =
      stars.flux === null
        ? 'their flux cannot be compared'
        : `star flux ${decimal(stars.flux, 2)} of the group’s best third${air} (doubtful below ` +
          `${decimal(rules.dimmedDoubtfulFlux, 2)}, lost below ${decimal(rules.dimmedLostFlux, 2)})`;
    const gone = areStarsGone(around, rules)
      ? `${counted(stars.count, 'star')} where the best third has ${whole(usual.count ?? 0)}; `
      : '';
    return [
      {
        kind: 'dimmed',
        verdict,
        span: frame.exposure,
        overlapMs: durationMs(frame.exposure),
        evidence: `${gone}${flux}`,
        certainty: 'measured',
        sources: frame.sources,
      },
    ];
  },
};
