/**
 * How an archive's kept time is counted.
 */
import { sumOfKnown, type Counting, type NightSummary, type Warning } from '../model/index.js';

/** How kept time is counted, if not by exposure time. */
export function countingNotices(nights: readonly NightSummary[], counting: Counting | undefined): Warning[] {
  if (counting !== 'effective') return [];
  const unknown = sumOfKnown(nights.map((n) => n.keptWithoutEffective));
  const rest =
    unknown === 0
      ? ''
      : ` ${unknown} kept frame${unknown === 1 ? '' : 's'} whose sky and air were not measured against one dark sky ` +
        `for all nights (zenithSky in the rig file) count${unknown === 1 ? 's' : ''} in clock time.`;
  return [
    {
      code: 'effective-hours',
      message:
        'Kept time and goals are counted in effective hours: the time under a dark, clear zenith sky ' +
        `worth the same.${rest} Such hours of different trains measure different things; give goals ` +
        'per train where that matters.',
    },
  ];
}
