/** What is drawn over or behind a chart's curves and bars, as plain data: `mark-plugins.ts` knows how each is drawn. */
import type { Interval } from '../../model/index.js';
import type { PatternName } from '../design/tokens.js';

export type Mark =
  | BackdropMark
  | BarPatternsMark
  | DitherTicksMark
  | LabelsMark
  | MoonLineMark
  | VerticalsMark
  | WhiskersMark;

/** A word next to a point of a curve, in place of a legend. */
export interface DirectLabel {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  /** Colour token. */
  readonly colour: string;
  readonly align?: 'left' | 'center' | 'right';
  /** Scale ids if they are not `x` and `y`. */
  readonly axis?: string;
  /** In the margin right of the chart, at the height of the value. */
  readonly outside?: boolean;
  /** Offsets in px: to the right, and down; up is negative. */
  readonly dx?: number;
  readonly dy?: number;
}

export interface LabelsMark {
  readonly mark: 'direct-labels';
  readonly labels: readonly DirectLabel[];
  /** Names of curves that no label may overlap. */
  readonly clearOf: readonly string[];
}

/** Words next to their curves, with a paper-coloured outline so that lines behind do not cross the text. */
export function directLabels(labels: readonly DirectLabel[], clearOf: readonly string[] = []): LabelsMark {
  return { mark: 'direct-labels', labels, clearOf };
}

export interface BackdropMark {
  readonly mark: 'backdrop';
  readonly spans: readonly { readonly span: Interval; readonly colour: string }[];
}

/** Areas over the whole height behind the curves: twilight, holds. */
export function backdrop(spans: BackdropMark['spans']): BackdropMark {
  return { mark: 'backdrop', spans };
}

export interface VerticalsMark {
  readonly mark: 'verticals';
  readonly at: readonly { readonly atMs: number; readonly colour: string }[];
}

/** Vertical lines at instants: refocuses, flips. */
export function verticals(at: VerticalsMark['at']): VerticalsMark {
  return { mark: 'verticals', at };
}

export interface BarPatternsMark {
  readonly mark: 'bar-patterns';
  readonly patterns: readonly PatternName[];
}

/** The pattern of the bars in the data set with the same index, in addition to their colour. For horizontal bars. */
export function barPatterns(patterns: readonly PatternName[]): BarPatternsMark {
  return { mark: 'bar-patterns', patterns };
}

/** The spread of one bar's value along its own axis. */
export interface Whisker {
  readonly low: number;
  readonly high: number;
}

export interface WhiskersMark {
  readonly mark: 'whiskers';
  readonly spreads: readonly Whisker[];
  readonly along: 'x' | 'y';
}

/** Thin lines with caps over the bars of the first dataset, from the low to the high value of each. */
export function whiskers(spreads: readonly Whisker[], along: 'x' | 'y'): WhiskersMark {
  return { mark: 'whiskers', spreads, along };
}

/** When dithers began. */
export interface DitherTicksMark {
  readonly mark: 'dither-ticks';
  readonly atMs: readonly number[];
}

/** When the Moon was up. */
export interface MoonLineMark {
  readonly mark: 'moon-line';
  readonly spans: readonly Interval[];
}
