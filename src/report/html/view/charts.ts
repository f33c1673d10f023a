import {
  CHART_WIDTH,
  HEIGHT_SHARE,
  type Chart,
  type ChartDrawing,
  type ChartSize,
  type ChartTable,
  type NoDrawing,
} from '../../charts/chart.js';
import { CHARTS } from '../../charts/index.js';
import { pageChart } from '../../charts/thread.js';
import type { ChartJob } from '../../charts/page-chart.js';
import type { ViewContext } from './context.js';
import { column, figures, words, type Cell, type Table } from './table.js';

/** A chart as the page shows it: the same picture at each size, or the reason why there is none. */
export interface ChartView {
  readonly id: string;
  readonly title: string;
  /** SVG for wide columns, and for phones. Generated here, safe to print unescaped. */
  readonly wide: string;
  /** SVG across a sheet of paper; empty if none was requested. */
  readonly paper: string;
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

function chartView(chart: Chart, { night, forPaper, ...rest }: ViewContext): Promise<ChartView> {
  return drawnChart(chart, (size) => chart.draw(night, { ...rest, size }), forPaper);
}

/**
 * Draws a chart at all of its sizes; the input is captured when this returns, the picture follows later.
 *
 * @param forPaper whether it will be printed across a sheet
 */
export async function drawnChart(
  chart: Pick<Chart, 'id' | 'title'>,
  drawAt: (size: ChartSize) => ChartDrawing | NoDrawing,
  forPaper: boolean,
): Promise<ChartView> {
  const { id, title } = chart;
  const [wide, narrow] = [drawAt('wide'), drawAt('narrow')];
  const paper = forPaper ? drawAt('paper') : null;
  const none = ({ missing }: NoDrawing): ChartView => ({
    id,
    title,
    wide: '',
    paper: '',
    narrow: '',
    altText: '',
    missing,
    table: null,
  });
  if ('missing' in wide) return none(wide);
  if ('missing' in narrow) return none(narrow);
  const pictures = await Promise.all([
    pageChart(job(id, 'wide', wide)),
    pageChart(job(id, 'narrow', narrow)),
    paper === null || 'missing' in paper ? '' : pageChart(job(id, 'paper', paper)),
  ]);
  return {
    id,
    title,
    wide: pictures[0],
    narrow: pictures[1],
    paper: pictures[2],
    altText: narrow.altText,
    missing: '',
    table: narrow.table === null ? null : tableOf(id, narrow.table),
  };
}

function job(id: string, size: ChartSize, { config, heightPx, altText }: ChartDrawing): ChartJob {
  const px = Math.round(heightPx * HEIGHT_SHARE[size]);
  return { config, widthPx: CHART_WIDTH[size], heightPx: px, id: `${id}-${size}`, label: altText };
}

/** Draws every chart of the registry for one night, sequentially: with thousands of frames each takes megabytes. */
export async function chartViews(context: ViewContext): Promise<ChartViews> {
  const views: Record<string, ChartView> = {};
  for (const chart of CHARTS) views[chart.id] = await chartView(chart, context);
  return views;
}
