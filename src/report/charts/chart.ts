import type { ChartConfiguration } from 'chart.js';
import type { Clock, Night } from '../../model/index.js';
import type { Palette } from '../design/filters.js';
import type { Mark } from './marks.js';

/** Where a chart will stand: across the page and on paper, or on a phone. */
export type ChartSize = 'wide' | 'narrow';

export interface ChartContext {
  readonly clock: Clock;
  readonly palette: Palette;
  readonly size: ChartSize;
  /** A second axis in UTC: asked for, or the clocks change in the night. */
  readonly showsUtc?: boolean;
  /** Times count from the first exposure. */
  readonly isShared?: boolean;
}

/** The same figures as a small table, for those who read rather than look. */
export interface ChartTable {
  readonly caption: string;
  /** Heads over several columns each. */
  readonly groups?: readonly { readonly label: string; readonly span: number }[];
  readonly columns: readonly ChartColumn[];
  readonly rows: readonly (readonly string[])[];
}

export interface ChartColumn {
  readonly label: string;
  readonly numeric: boolean;
}

/**
 * What the chart library is to draw, as plain data: charts are drawn in a thread of their own, and functions do not go
 * there. Scales say how their ticks are labelled, and marks stand for plugins.
 */
export interface ChartConfig extends Omit<ChartConfiguration, 'plugins'> {
  readonly marks: readonly Mark[];
}

export interface ChartDrawing {
  readonly config: ChartConfig;
  readonly heightPx: number;
  /** What the chart shows, in a sentence with its figures. */
  readonly altText: string;
  readonly table: ChartTable | null;
}

/** A chart that cannot be drawn, and what is missing. */
export interface NoDrawing {
  readonly missing: string;
}

/** One chart of the report: a file, a line in the registry and a test, all of the id's name. */
export interface Chart {
  readonly id: string;
  readonly title: string;
  draw(night: Night, context: ChartContext): ChartDrawing | NoDrawing;
}

/** Widths in px that charts are drawn at; the page scales them to their column. */
export const CHART_WIDTH: Readonly<Record<ChartSize, number>> = { wide: 940, narrow: 380 };

/** A column of words. */
export function wordColumn(label: string): ChartColumn {
  return { label, numeric: false };
}

/** A column of figures. */
export function figureColumn(label: string): ChartColumn {
  return { label, numeric: true };
}
