import type { ChartConfiguration } from 'chart.js';
import type { Clock, Night } from '../../model/index.js';
import type { Palette } from '../design/filters.js';
import type { Mark } from './marks.js';

/** Where a chart will be shown: across a screen, across a sheet of paper, or on a phone and in half a sheet. */
export type ChartSize = 'wide' | 'paper' | 'narrow';

export interface ChartContext {
  readonly clock: Clock;
  readonly palette: Palette;
  readonly size: ChartSize;
  /** A second axis in UTC: requested, or the clocks change in the night. */
  readonly showsUtc?: boolean;
  /** Times count from the first exposure. */
  readonly isShared?: boolean;
}

/** The same figures as a small table. */
export interface ChartTable {
  readonly caption: string;
  /** Headers over several columns each. */
  readonly groups?: readonly { readonly label: string; readonly span: number }[];
  readonly columns: readonly ChartColumn[];
  readonly rows: readonly (readonly string[])[];
}

export interface ChartColumn {
  readonly label: string;
  readonly numeric: boolean;
}

/**
 * The input of the chart library, as plain data: charts are drawn in a worker thread, to which functions cannot be
 * sent. Scales say how their ticks are labelled, and marks replace plugins.
 */
export interface ChartConfig extends Omit<ChartConfiguration, 'plugins'> {
  readonly marks: readonly Mark[];
}

export interface ChartDrawing {
  readonly config: ChartConfig;
  readonly heightPx: number;
  /** The content of the chart, in a sentence with its figures. */
  readonly altText: string;
  readonly table: ChartTable | null;
}

/** A chart that cannot be drawn, and what is missing. */
export interface NoDrawing {
  readonly missing: string;
}

/** One chart of the report: a file, a line in the registry and a test, all named after the id. */
export interface Chart {
  readonly id: string;
  readonly title: string;
  draw(night: Night, context: ChartContext): ChartDrawing | NoDrawing;
}

/**
 * Widths in px at which charts are drawn; the page scales them to their column. On paper that is 516 points, half of it
 * 248: text of 13 px is then nine points.
 */
export const CHART_WIDTH: Readonly<Record<ChartSize, number>> = { wide: 940, paper: 740, narrow: 358 };

/** Factor from stated to drawn heights: where text takes more of the width, plots keep their height. */
export const HEIGHT_SHARE: Readonly<Record<ChartSize, number>> = { wide: 1, paper: 0.78, narrow: 0.94 };

/** A column of words. */
export function wordColumn(label: string): ChartColumn {
  return { label, numeric: false };
}

/** A column of figures. */
export function figureColumn(label: string): ChartColumn {
  return { label, numeric: true };
}
