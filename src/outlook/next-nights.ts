/**
 * What to take on the next nights: broadband without the Moon, narrowband under it (common practice, no source), and of
 * what is up the target whose season ends first.
 */
import type { Choice, NextNight, NightHours, TargetOutlook, Want } from '../model/index.js';
import type { NightAhead } from './night-hours.js';

/** Shorter stretches are not worth a filter change, hours. */
const LEAST_HOURS = 1;

/** Choices for the first nights ahead. */
export function nextNights(nights: readonly NightAhead[], targets: readonly TargetOutlook[]): NextNight[] {
  return nights.map(({ date, darkHours, moonIllumination, moonlessHours }, index) => ({
    date,
    darkHours,
    moonIllumination,
    moonlessHours,
    withoutMoon:
      choose(
        targets,
        index,
        (hours) => hours.moonless,
        (want) => !want.isNarrowband,
      ) ??
      choose(
        targets,
        index,
        (hours) => hours.moonless,
        () => true,
      ),
    underMoon: choose(
      targets,
      index,
      (hours) => hours.farMoon,
      (want) => want.isNarrowband || want.filter === null,
    ),
  }));
}

function choose(
  targets: readonly TargetOutlook[],
  index: number,
  hoursOf: (hours: NightHours) => number,
  suits: (want: Want) => boolean,
): Choice | null {
  const [best] = targets
    .flatMap((target) => {
      const night = target.nights[index];
      const hours = night ? hoursOf(night) : 0;
      const want = target.wants.find(suits);
      return want && hours >= LEAST_HOURS ? [{ target, hours, want }] : [];
    })
    .sort((a, b) => compare(endOf(a.target), endOf(b.target)) || b.want.share - a.want.share || b.hours - a.hours);
  return best
    ? { target: best.target.name, filter: best.want.filter, train: best.want.train, hours: best.hours }
    : null;
}

/** The season's end for sorting: what never ends comes last. */
function endOf({ season }: TargetOutlook): string {
  return season.state === 'never' ? '9999' : (season.until ?? '9998');
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
