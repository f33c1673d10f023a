/** The pictures of progress that need no look-ahead: they can be drawn while that is computed. */
import { ownValue, type TargetProgress } from '../../model/index.js';
import { drawnChart, type ChartView } from '../html/view/charts.js';
import { cumulative, type Growth } from './charts/cumulative.js';
import { drawTrend } from './charts/trend.js';
import { TRENDS } from './charts/trends.js';
import { MOST_TARGETS, nameOf, type ProgressContext, type ProgressPictures } from './context.js';

/** Draws them; the input is captured when this returns, the pictures follow later. */
export async function progressPictures(context: ProgressContext): Promise<ProgressPictures> {
  const { progress } = context;
  // Two trends side by side on paper; on a phone each takes the width.
  const trends = TRENDS.map((trend) =>
    drawnChart({ id: `trend-${trend.id}`, title: trend.title }, drawTrend(trend, context), false),
  );
  const dates = progress.nights.map((n) => n.date);
  const growth = drawnChart(
    { id: 'growth', title: 'Kept integration per target' },
    cumulative(growths(context), dates),
    context.forPaper ?? false,
  );
  const targets = progress.targets.map((target) => targetGrowth(context, target));
  const [drawn, drawnTrends, drawnTargets] = await Promise.all([growth, Promise.all(trends), Promise.all(targets)]);
  return { growth: drawn, trends: drawnTrends, targets: drawnTargets };
}

/** The targets with most integration, one curve each. */
function growths({ progress: { targets }, colourOf }: ProgressContext): Growth[] {
  return [...targets]
    .sort((a, b) => b.ms.kept - a.ms.kept)
    .slice(0, MOST_TARGETS)
    .map((target) => ({
      label: nameOf(target),
      colour: colourOf(target.name),
      nights: target.nights.map((night) => ({ date: night.date, ms: night.ms.kept })),
    }));
}

function targetGrowth(
  { anchorOf, palette, forPaper = false }: ProgressContext,
  target: TargetProgress,
): Promise<ChartView> {
  const filters = [...new Set(target.nights.flatMap((night) => Object.keys(night.keptByFilterMs)))];
  const byFilter = filters.map(
    (filter): Growth => ({
      label: palette.filter(filter).label,
      colour: palette.filter(filter).colour,
      nights: target.nights.flatMap((night) => {
        const ms = ownValue(night.keptByFilterMs, filter);
        return ms === undefined ? [] : [{ date: night.date, ms }];
      }),
      goalMs: target.lines.find((line) => line.filter === filter && line.train === null)?.goalMs ?? null,
    }),
  );
  const dates = target.nights.map((night) => night.date);
  const title = `${nameOf(target)}: kept integration per filter`;
  return drawnChart({ id: `growth-${anchorOf(target.name)}`, title }, cumulative(byFilter, dates), forPaper);
}
