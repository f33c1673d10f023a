/**
 * The stars are fainter than those of the group's best third, or most of them are missing: cloud, dew, a low target.
 */
import { counted, decimal, whole, type Rules } from '../../vocabulary/index.js';
import type { LossCause } from './cause.js';
import type { ExposureFacts } from './facts.js';
import { noSkyIn } from './no-sky.js';
import { wholeFrame } from './evidence/whole-frame.js';

/** How many stars are left of how many, if too few. If the best third has few, a missing one is no evidence. */
function starsGone(
  { stars, usual }: Pick<ExposureFacts, 'stars' | 'usual'>,
  rules: Rules,
): { readonly left: number; readonly best: number } | null {
  if (stars === null || usual === null || usual.count === null || usual.count < rules.minimumStars) return null;
  return stars.count < rules.dimmedLostStars * usual.count ? { left: stars.count, best: usual.count } : null;
}

export const dimmed: LossCause = {
  id: 'dimmed',
  judge({ stars, usual }, rules) {
    if (stars === null || usual === null || noSkyIn({ stars, usual }, rules) !== null) return null;
    const { flux } = stars;
    const isWhole = flux !== null && flux >= rules.dimmedDoubtfulFlux;
    // Light that is complete was not lost to a cloud: a bright sky hides faint stars, and wide stars sink into any
    // background.
    if (starsGone({ stars, usual }, rules) !== null) return isWhole ? 'doubtful' : 'lost';
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
    const few = starsGone(around, rules);
    const isWhole = stars.flux !== null && stars.flux >= rules.dimmedDoubtfulFlux;
    const gone = few
      ? `${counted(few.left, 'star')} where the best third has ${whole(few.best)}` +
        (isWhole ? ', their light undiminished: a brighter sky or larger stars hide the others; ' : '; ')
      : '';
    return [wholeFrame('dimmed', frame, verdict, `${gone}${flux}`)];
  },
};
