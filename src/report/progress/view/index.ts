import { drawnChart, type ChartView } from '../../html/view/charts.js';
import type { SectionHead } from '../../html/view/index.js';
import type { Table } from '../../html/view/table.js';
import { planView, type PlanView } from '../../plan/view.js';
import { hoursAhead } from '../charts/hours-ahead.js';
import { nameOf, type ProgressContext } from '../context.js';
import { progressPictures } from '../pictures.js';
import { counted, duration, groupBy, itemAt, type TargetProgress } from '../../../model/index.js';
import { calendarView, type CalendarView } from './calendar.js';
import { frontView, type ProgressFront } from './front.js';
import { goalsTable, mosaicTexts, targetTable } from './goals-table.js';
import { nightsTable, targetNightsTable } from './nights-table.js';
import { outlookView, seasonText, type OutlookView } from './outlook.js';
import { notesView, type ProgressNotes } from './provenance.js';

/** Everything the page prints: text, positions and pictures, with nothing left to compute. */
export interface ProgressView {
  readonly front: ProgressFront;
  readonly summary: string;
  readonly contents: readonly SectionHead[];
  readonly sections: Readonly<Record<string, SectionHead>>;
  readonly goals: Table;
  /** How evenly the panels of each mosaic stand. */
  readonly mosaics: readonly string[];
  readonly outlook: OutlookView | null;
  readonly noOutlook: string;
  readonly plan: PlanView | null;
  readonly ahead: ChartView | null;
  readonly growth: ChartView;
  readonly calendar: CalendarView;
  readonly trends: readonly ChartView[];
  /** Why trends are not drawn, each reason once. */
  readonly noTrends: readonly string[];
  readonly targets: readonly TargetView[];
  readonly nights: Table;
  readonly notes: ProgressNotes;
  readonly shared: boolean;
}

/** One target's own section. */
export interface TargetView {
  readonly id: string;
  readonly name: string;
  readonly summary: string;
  readonly chart: ChartView;
  readonly table: Table;
  readonly nights: Table | null;
}

const SECTIONS: readonly (readonly [string, string])[] = [
  ['goals', 'Goals'],
  ['outlook', 'Outlook'],
  ['plan', 'Plan for the coming nights'],
  ['growth', 'Integration by night'],
  ['calendar', 'Calendar of nights'],
  ['trends', 'Trends'],
  ['targets', 'Target by target'],
  ['nights', 'Every night'],
  ['notes', 'Notes and formulas'],
];

/** Builds the view, section by section. */
export async function progressView(context: ProgressContext): Promise<ProgressView> {
  const { progress, outlook } = context;
  const contents = SECTIONS.map(([id, title], index): SectionHead => ({ id, title, number: String(index + 1) }));
  const front = frontView(context);
  const drawn = context.pictures ?? progressPictures(context);
  // While a worker thread draws, the rest is put into words.
  const drawnAhead =
    outlook && outlook.targets.length > 0
      ? drawnChart(
          { id: 'hours-ahead', title: 'Hours per night above the limit in darkness' },
          (size) => hoursAhead(outlook, size, context.colourOf),
          context.forPaper ?? false,
        )
      : null;
  const sections = progress.targets.map((target) => targetView(context, target));
  const words = {
    front,
    summary: front.headline.map((phrase) => phrase.text).join(''),
    contents,
    sections: Object.fromEntries(contents.map((head) => [head.id, head])),
    goals: goalsTable(context),
    mosaics: mosaicTexts(context),
    outlook: outlook && outlookView(context, outlook),
    noOutlook:
      'No record names a site: without one, darkness and Moon cannot be predicted. Name ' +
      'the site in the rig file and report a night again.',
    plan: context.plan ? planView(context.plan) : null,
    calendar: calendarView(context),
    nights: nightsTable(context),
    notes: notesView(context),
    shared: context.share,
  };
  const [ahead, { trends, growth, targets }] = await Promise.all([drawnAhead, drawn]);
  return {
    ...words,
    ahead,
    growth,
    trends: trends.filter(({ missing }) => missing === ''),
    noTrends: notDrawn(trends),
    targets: sections.map((section, i) => ({ ...section, chart: itemAt(targets, i) })),
  };
}

/** `Star size and Guiding: not drawn, …` */
function notDrawn(charts: readonly ChartView[]): string[] {
  const lacking = charts.filter(({ missing }) => missing !== '');
  return [...groupBy(lacking, ({ missing }) => missing)].map(
    ([missing, those]) => `${those.map(({ title }) => title).join('; ')}: not drawn, ${missing}.`,
  );
}

function targetView(context: ProgressContext, target: TargetProgress): Omit<TargetView, 'chart'> {
  const name = nameOf(target);
  return {
    id: context.anchorOf(target.name),
    name,
    summary: targetSummary(context, target),
    table: targetTable(context, target),
    nights: target.nights.length === 0 ? null : targetNightsTable(context, name, target.nights),
  };
}

function targetSummary(
  { outlook }: ProgressContext,
  { name, otherNames, ms, goalMs, remainingMs, nights }: TargetProgress,
): string {
  const ahead = outlook?.targets.find((t) => t.name === name);
  return [
    `${duration(ms.kept)} kept on ${counted(nights.length, 'night')}`,
    ...(goalMs === null || remainingMs === null
      ? []
      : [
          remainingMs > 0
            ? `, ${duration(remainingMs)} still needed of ${duration(goalMs)}`
            : `, the goal of ${duration(goalMs)} reached`,
        ]),
    '.',
    ...(ahead ? [` Season: ${seasonText(ahead.season)}.`] : []),
    ...(otherNames.length > 0 ? [` Also recorded as ${otherNames.join(', ')}.`] : []),
  ].join('');
}
