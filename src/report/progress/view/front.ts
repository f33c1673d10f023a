import { counted, decimal, duration, listed, median, percent, sum, sumOfKnown, UNKNOWN } from '../../../model/index.js';
import type { Figure } from '../../html/view/front.js';
import type { Phrase } from '../../html/view/headline.js';
import { nameOf, type ProgressContext } from '../context.js';
import { summaryOf } from '../../plan/wording.js';
import { dateText, spanText } from '../dates.js';
import { sentence } from '../../text/sentence.js';
import { goalFigure, type GoalFigure } from './goal-figures.js';
import { seasonText } from './outlook.js';

/** The first screen: how far along the targets are. */
export interface ProgressFront {
  readonly title: string;
  readonly place: string;
  readonly trains: string;
  readonly headline: readonly Phrase[];
  readonly notices: readonly string[];
  readonly figures: readonly Figure[];
  readonly goals: readonly GoalFigure[];
  readonly more: string;
  readonly next: { readonly evening: string; readonly what: string; readonly seasons: string } | null;
}

/** Number of targets with bars on the first screen; all of them have their sections. */
const MOST_FIGURES = 9;

const say = (text: string): Phrase => ({ text });
const quantity = (text: string): Phrase => ({ text, quantity: true });

function headline(context: ProgressContext): Phrase[] {
  const { progress, outlook } = context;
  const kept = sum(progress.trends.map((t) => t.keptMs));
  const used = progress.trends.filter((t) => t.keptMs > 0).length;
  const open = progress.targets.filter((t) => t.remainingMs !== null && t.remainingMs > 0);
  const lacking = sumOfKnown(open.map((t) => t.remainingMs));
  const clauses: Phrase[][] = [[quantity(counted(used, 'night')), say(' kept '), quantity(duration(kept))]];
  if (open.length > 0)
    clauses.push([
      say(
        `${listed([...open.slice(0, 3).map(nameOf), ...(open.length > 3 ? [`${open.length - 3} more`] : [])])} ` +
          `still need${open.length === 1 ? 's' : ''} `,
      ),
      quantity(duration(lacking)),
    ]);
  else if (progress.targets.some((t) => t.goalMs !== null)) clauses.push([say('every goal is reached')]);
  const nearest = outlook?.targets
    .flatMap((target) => {
      const middle = target.estimate?.nights?.middle ?? null;
      return middle === null ? [] : [{ ...target, middle }];
    })
    .sort((a, b) => a.middle - b.middle)[0];
  const nights = nearest?.estimate?.nights;
  if (nearest && nights && nights.middle !== null) {
    clauses.push([
      say(`${nameOf(nearest.name)} needs about `),
      quantity(counted(nights.middle, 'more night', 'more nights')),
      say(nights.high === null ? ` (${nights.low} or more)` : ` (${nights.low} to ${nights.high})`),
    ]);
  }
  return clauses.flatMap((clause, index) => (index === 0 ? clause : [say('; '), ...clause])).concat(say('.'));
}

function figuresOf({ progress }: ProgressContext): Figure[] {
  const { trends, targets } = progress;
  const known = (values: readonly (number | null)[]): number[] => values.flatMap((v) => v ?? []);
  const efficiency = known(trends.map((t) => t.efficiency));
  const gain = known(trends.map((t) => t.twinGain));
  const dark = sum(known(trends.map((t) => t.darkMs)));
  const usedDark = sum(trends.map((t) => (t.darkMs === null ? 0 : t.usedMs)));
  const frames = sum(targets.map((t) => t.frames.kept));
  return [
    {
      label: 'Nights',
      value: String(trends.filter((t) => t.keptMs > 0).length),
      note: dark > 0 ? `${percent(usedDark / dark)} of their ${duration(dark)} dark used` : 'darkness not known',
    },
    {
      label: 'Kept',
      value: duration(sum(trends.map((t) => t.keptMs))),
      note: `${counted(frames, 'frame')} on all trains`,
    },
    {
      label: 'Efficiency',
      value: percent(efficiency.length > 0 ? median(efficiency) : null),
      note: 'kept of first to last light, median night',
    },
    {
      label: 'Twin gain',
      value: gain.length > 0 ? `${decimal(median(gain), 2)} ×` : UNKNOWN,
      note: gain.length > 0 ? 'all trains ÷ the better one, median night' : 'no night has two trains',
    },
  ];
}

/** Tonight according to the plan: the page gives no other advice. */
function nextBox({ outlook, plan }: ProgressContext): ProgressFront['next'] {
  const night = plan?.nights[0];
  if (!plan || !outlook || !night || outlook.targets.length === 0) return null;
  return {
    evening: `${dateText(night.date)}, Moon ${percent(night.moonIllumination)},`,
    what: summaryOf(plan),
    seasons: outlook.targets
      .slice(0, 4)
      .map((t) => `${nameOf(t.name)} ${seasonText(t.season)}`)
      .join('; '),
  };
}

/** Builds the first screen. */
export function frontView(context: ProgressContext): ProgressFront {
  const { progress, share } = context;
  const { nights, targets, trains } = progress;
  const [first, last] = [nights[0]?.date ?? '', nights.at(-1)?.date ?? ''];
  const sites = [...new Set(nights.flatMap((n) => n.site?.name ?? []))];
  const scales = new Map(nights.flatMap((n) => n.trains.map((t) => [t.id, t] as const)));
  return {
    title: `Progress to ${dateText(last)}`,
    place: [
      ...(share || sites.length === 0 ? [] : [listed(sites)]),
      `${counted(nights.length, 'night')}, ${spanText(first, last)}`,
    ].join(', '),
    trains: listed(
      trains.map((id) => {
        const train = scales.get(id);
        return (
          `${id} (` +
          [
            train?.role ?? '',
            ...(train?.pixelScaleArcsec === undefined ? [] : [`${decimal(train.pixelScaleArcsec, 2)}″ per pixel`]),
          ].join(', ') +
          ')'
        );
      }),
    ),
    headline: headline(context),
    notices: progress.notices
      .filter((n) => n.code === 'effective-hours' || n.code === 'damaged-record' || n.code === 'near-duplicate-targets')
      .slice(0, 3)
      .map((n) => sentence(n.message)),
    figures: figuresOf(context),
    goals: targets.slice(0, MOST_FIGURES).map((target) => goalFigure(context, target)),
    more:
      targets.length > MOST_FIGURES
        ? `${counted(targets.length - MOST_FIGURES, 'more target')} in the table below.`
        : '',
    next: nextBox(context),
  };
}
