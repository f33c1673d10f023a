import { textWidthPx } from '../timeline/scale.js';
import { TEXT_PX } from './axes.js';

/** What a chart's top and its time axis take of its height, without and with a title below the axis. */
const BESIDE_PX = { plain: 20, titled: 40 } as const;
/** Of the width that a text has on the safe side, what it takes at most. */
const TRUE_WIDTH = 0.94;
/** Between the lines of a title, in sizes of its letters: the usual 1.2 has the boxes of letters overlap. */
const LINE_HEIGHT = 1.45;

/** A scale as the chart library takes it. */
export interface TitledScale {
  readonly title?: { readonly text?: unknown; readonly font?: object };
  readonly [other: string]: unknown;
}

/** The room beside a chart's height that an upright title has, px. */
export function roomForTitles(scales: readonly TitledScale[], heightPx: number): number {
  const hasTitleBelow = scales.some(({ position, title }) => position === 'bottom' && title?.text !== undefined);
  return heightPx - BESIDE_PX[hasTitleBelow ? 'titled' : 'plain'];
}

/** A scale whose title is broken in two where there is no room for one line of it. */
export function withFittingTitle(scale: TitledScale, roomPx: number): object {
  const text = scale.title?.text;
  const isUpright = scale.position === 'left' || scale.position === 'right';
  if (!isUpright || typeof text !== 'string' || TRUE_WIDTH * textWidthPx(text, TEXT_PX) <= roomPx) return scale;
  return {
    ...scale,
    title: { ...scale.title, text: inTwo(text), font: { ...scale.title?.font, lineHeight: LINE_HEIGHT } },
  };
}

/** Breaks a text at the blank that is nearest to its middle. */
function inTwo(text: string): readonly string[] {
  const blanks = [...text.matchAll(/ /g)].map(({ index }) => index);
  const off = (at: number): number => Math.abs(at - text.length / 2);
  const [first, ...others] = blanks;
  if (first === undefined) return [text];
  const at = others.reduce((best, one) => (off(one) < off(best) ? one : best), first);
  return [text.slice(0, at), text.slice(at + 1)];
}
