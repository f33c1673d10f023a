import { textWidthPx } from '../timeline/scale.js';
import { TEXT_PX } from './axes.js';

/** Fraction of a chart's height taken by its top and its time axis, without and with a title below the axis. */
const BESIDE_PX = { plain: 20, titled: 40 } as const;
/** Maximum fraction of the width that a text may take, as a safety margin. */
const TRUE_WIDTH = 0.94;
/** Line height of a title in ems: the usual 1.2 makes text boxes overlap. */
const LINE_HEIGHT = 1.45;

/** A scale as passed to the chart library. */
export interface TitledScale {
  readonly title?: { readonly text?: unknown; readonly font?: object };
  readonly [other: string]: unknown;
}

/** The space next to a chart's height for a rotated title, px. */
export function roomForTitles(scales: readonly TitledScale[], heightPx: number): number {
  const hasTitleBelow = scales.some(({ position, title }) => position === 'bottom' && title?.text !== undefined);
  return heightPx - BESIDE_PX[hasTitleBelow ? 'titled' : 'plain'];
}

/** A scale whose title is split in two if it does not fit on one line. */
export function withFittingTitle(scale: TitledScale, roomPx: number): object {
  const text = scale.title?.text;
  const isUpright = scale.position === 'left' || scale.position === 'right';
  if (!isUpright || typeof text !== 'string' || TRUE_WIDTH * textWidthPx(text, TEXT_PX) <= roomPx) return scale;
  return {
    ...scale,
    title: { ...scale.title, text: inTwo(text), font: { ...scale.title?.font, lineHeight: LINE_HEIGHT } },
  };
}

/** Splits a text at the blank nearest to its middle. */
function inTwo(text: string): readonly string[] {
  const blanks = [...text.matchAll(/ /g)].map(({ index }) => index);
  const off = (at: number): number => Math.abs(at - text.length / 2);
  const [first, ...others] = blanks;
  if (first === undefined) return [text];
  const at = others.reduce((best, one) => (off(one) < off(best) ? one : best), first);
  return [text.slice(0, at), text.slice(at + 1)];
}
