import type { Interval } from '../../model/index.js';

/**
 * Places on a time axis, in per cent of its width: the picture then fills any width while its letters keep their size.
 */
export interface TimeScale {
  readonly span: Interval;
  /** `12.345%`, held within the axis. */
  x(atMs: number): string;
  /** Width of a stretch, the part within the axis. */
  width(startMs: number, endMs: number): string;
  /** Share of the axis, 0 to 1, that the visible part of a stretch takes. */
  share(startMs: number, endMs: number): number;
  /** Whether any part of the stretch is on the axis. */
  shows(span: Interval): boolean;
}

const percentText = (value: number): string => `${Number((value * 100).toFixed(3))}%`;

/** The scale of a span. */
export function timeScale(span: Interval): TimeScale {
  const length = Math.max(1, span.endMs - span.startMs);
  const part = (atMs: number): number => Math.min(1, Math.max(0, (atMs - span.startMs) / length));
  const share = (startMs: number, endMs: number): number => Math.max(0, part(endMs) - part(startMs));
  return {
    span, share,
    x: (atMs) => percentText(part(atMs)),
    width: (startMs, endMs) => percentText(share(startMs, endMs)),
    shows: (other) => other.endMs > span.startMs && other.startMs < span.endMs,
  };
}

/** Picture widths, CSS px, at which the style sheet lets more letters appear. */
export const FIT_WIDTHS = [240, 320, 400, 500, 600, 700, 850, 1000, 1200, 1400, 1700, 2000] as const;

/** Mean advance of a character at 11 px, and the air a label needs at its sides, px. */
const CHARACTER_PX = 6.1;
const AIR_PX = 4;

/** Width of a text at 11 px, px, on the safe side. */
export function textWidthPx(text: string, sizePx = 11): number {
  return [...text].length * CHARACTER_PX * (sizePx / 11);
}

/**
 * The class under which a label of a given width appears: from the picture width at which its share of the axis
 * can hold it; `null` when no usual width does.
 */
export function fitClass(widthPx: number, share: number): string | null {
  const needed = (widthPx + AIR_PX) / share;
  const width = FIT_WIDTHS.find((one) => one >= needed);
  return width === undefined ? null : `fit-${width}`;
}
