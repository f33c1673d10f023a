import { chartDrawer } from '../../charts/canvas.js';
import {
  CHART_WIDTH,
  type Chart,
  type ChartDrawing,
  type ChartSize,
  type ChartTable,
  type NoDrawing,
} from '../../charts/chart.js';
import { CHARTS } from '../../charts/index.js';
import { pageSvg } from '../../charts/svg.js';
import type { ViewContext } from './context.js';
import { column, figures, words, type Cell, type Table } from './table.js';

/** A chart as the page shows it: two sizes of the same picture, or the reason why there is none. */
export interface ChartView {
  readonly id: string;
  readonly title: string;
  /** SVG for wide columns and paper, and for phones. Made by us, safe to print unescaped. */
  readonly wide: string;
  readonly narrow: string;
  readonly altText: string;
  readonly missing: string;
  readonly table: Table | null;
}

export type ChartViews = Readonly<Record<string, ChartView>>;

/** The chart's figures as a table of the page. */
function tableOf(name: string, { caption, groups, columns, rows }: ChartTable): Table {
  const cell = (text: string, index: number): Cell =>
    columns[index]?.numeric ? figures(text) : words(text, { header: index === 0 });
  return {
    name,
    caption,
    ...(groups === undefined ? {} : { groups }),
    columns: columns.map(({ label, numeric }) => column(label, numeric ? 'figures' : 'words')),
    rows: rows.map((texts) => ({ cells: texts.map(cell) })),
  };
}

function chartView(chart: Chart, { night, ...rest }: ViewContext): Promise<ChartView> {
  return drawnChart(chart, (size) => chart.draw(night, { ...rest, size }));
}

/** Draws a chart at both of its sizes. */
export async function drawnChart(
  chart: Pick<Chart, 'id' | 'title'>,
  drawAt: (size: ChartSize) => ChartDrawing | NoDrawing,
): Promise<ChartView> {
  const sizes: Record<ChartSize, string> = { wide: '', narrow: '' };
  let altText = '';
  let table: Table | null = null;
  for (const size of ['wide', 'narrow'] as const) {
    const drawing = drawAt(size);
    if ('missing' in drawing)
      return { id: chart.id, title: chart.title, ...sizes, altText: '', missing: drawing.missing, table: null };
    const draw = await chartDrawer();
    sizes[size] = pageSvg(
      draw(drawing.config, CHART_WIDTH[size], drawing.heightPx),
      `${chart.id}-${size}`,
      drawing.altText,
    );
    altText = drawing.altText;
    table = drawing.table === null ? null : tableOf(chart.id, drawing.table);
  }
  return { id: chart.id, title: chart.title, ...sizes, altText, missing: '', table };
}

/** Draws every chart of the registry for one night. */
export async function chartViews(context: ViewContext): Promise<ChartViews> {
  const views: Record<string, ChartView> = {};
  for (const chart of CHARTS) views[chart.id] = await chartView(chart, context);
  return views;
}
