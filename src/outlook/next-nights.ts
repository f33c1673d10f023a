/**
 * What to take on the next nights: broadband without the Moon, narrowband under it (common practice, no source), and of
 * what is up the target whose season ends first. What one night is expected to give, the nights after it need no more.
 */
import type { Choice, NextNight, NightHours, TargetOutlook, Want } from '../model/index.js';
import { moonlightOf, moonlitHours } from './moonlight.js';
import type { NightAhead } from './night-hours.js';

/** Shorter stretches are not worth a filter change, hours. */
const LEAST_HOURS = 1;
/** Kept by all trains of an hour of darkness, where the archive tells nothing. Common practice, no source. */
const USUAL_RATE = 0.7;

/** A target's wants, and what of each is left after the nights planned before. */
interface Left {
  readonly target: TargetOutlook;
  readonly wants: { readonly want: Want; hours: number }[];
}

/**
 * Choices for the first nights ahead, if all of them are clear.
 *
 * @param keptPerDarkHour hours of integration, all trains together, that an hour of darkness gives; `null`: not known
 */
export function nextNights(
  nights: readonly NightAhead[],
  targets: readonly TargetOutlook[],
  keptPerDarkHour: number | null,
): NextNight[] {
  const rate = keptPerDarkHour !== null && keptPerDarkHour > 0 ? keptPerDarkHour : USUAL_RATE;
  const left = targets.map(
    (target): Left => ({ target, wants: target.wants.map((want) => ({ want, hours: want.hours })) }),
  );
  return nights.map(({ date, darkHours, moonIllumination, moonlessHours }, index) => {
    const moonless = (hours: NightHours): number => hours.moonless;
    const moonlit = (hours: NightHours, want: Want): number => moonlitHours(hours, moonlightOf(want));
    const withoutMoon =
      choose(left, index, moonless, (want) => !want.isNarrowband, rate) ??
      choose(left, index, moonless, () => true, rate);
    const underMoon = choose(left, index, moonlit, (want) => moonlightOf(want) !== 'none', rate);
    return { date, darkHours, moonIllumination, moonlessHours, withoutMoon, underMoon };
  });
}

/** The best choice, whose hours are taken from what is left. */
function choose(
  left: readonly Left[],
  index: number,
  hoursOf: (hours: NightHours, want: Want) => number,
  suits: (want: Want) => boolean,
  rate: number,
): Choice | null {
  const [best] = left
    .flatMap(({ target, wants }) => {
      const night = target.nights[index];
      if (!night) return [];
      const [best] = wants
        .filter((w) => w.hours > 0 && suits(w.want))
        .map((own) => ({ target, own, hours: hoursOf(night, own.want) }))
        .filter(({ hours }) => hours >= LEAST_HOURS)
        .sort((a, b) => shareLeft(b.own) - shareLeft(a.own));
      return best ? [best] : [];
    })
    .sort(
      (a, b) => compare(endOf(a.target), endOf(b.target)) || shareLeft(b.own) - shareLeft(a.own) || b.hours - a.hours,
    );
  if (!best) return null;
  const { target, hours, own } = best;
  own.hours -= hours * rate;
  return { target: target.name, filter: own.want.filter, train: own.want.train, hours };
}

/** Share of the goal that is still lacking. */
function shareLeft({ want, hours }: Left['wants'][number]): number {
  return want.hours > 0 ? (want.share * hours) / want.hours : 0;
}

/** The season's end for sorting: what never ends comes last. */
function endOf({ season }: TargetOutlook): string {
  return season.state === 'never' ? '9999' : (season.until ?? '9998');
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
