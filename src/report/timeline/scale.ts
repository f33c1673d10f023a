import type { Interval } from '../../model/index.js';

/**
 * Positions on a time axis, in per cent of its width: the picture then scales to any width while its letters keep their
 * size.
 */
export interface TimeScale {
  readonly span: Interval;
  /** `12.345%`, clamped to the axis. */
  x(atMs: number): string;
  /** Width of a span, the part within the axis. */
  width(startMs: number, endMs: number): string;
  /** Fraction of the axis, 0 to 1, of the visible part of a span. */
  share(startMs: number, endMs: number): number;
  /** Whether any part of the span is on the axis. */
  shows(span: Interval): boolean;
}

const percentText = (value: number): string => `${Number((value * 100).toFixed(3))}%`;

/** The scale of a span. */
export function timeScale(span: Interval): TimeScale {
  const length = Math.max(1, span.endMs - span.startMs);
  const part = (atMs: number): number => Math.min(1, Math.max(0, (atMs - span.startMs) / length));
  const share = (startMs: number, endMs: number): number => Math.max(0, part(endMs) - part(startMs));
  return {
    span,
    share,
    x: (atMs) => percentText(part(atMs)),
    width: (startMs, endMs) => percentText(share(startMs, endMs)),
    shows: (other) => other.endMs > span.startMs && other.startMs < span.endMs,
  };
}

/** Picture widths, CSS px, at which more letters appear. */
const FIT_WIDTHS = [240, 320, 400, 480, 560, 620, 680, 760, 850, 1000, 1200, 1400, 1700, 2000] as const;

/** The style sheet's part of {@link fitClass}: a label is hidden until its picture is wide enough for it. */
export function fitStyles(): string {
  const hidden = `${FIT_WIDTHS.map((width) => `.fit-${width}`).join(',')}{display:none}`;
  return [
    hidden,
    ...FIT_WIDTHS.map((width) => `@container (min-width:${width}px){.fit-${width}{display:inline}}`),
  ].join('\n');
}

/** Advance of a character in ems, rounded up over both weights of the page's sans: narrow, capital, wide, any other. */
function advanceEm(character: string): number {
  if (/[Iil.,:;'|!j ]/.test(character)) return 0.29;
  if (/[mwMW—…%]/.test(character)) return 0.86;
  return /[A-Z<>&@]/.test(character) ? 0.64 : 0.55;
}

/** Upper estimate of a text's width, px. */
export function textWidthPx(text: string, sizePx = 11): number {
  return [...text].reduce((sum, character) => sum + advanceEm(character), 0) * sizePx;
}

/** For a panel of a mosaic, the name of the whole and the part that identifies the panel, which comes last. */
const PANEL = /^(.+) panel (\w{1,6})$/;

/**
 * The text truncated to a width, with an ellipsis where something is missing; empty when not even that fits. Panels of
 * a mosaic keep their numbers.
 */
export function cutToWidth(text: string, widthPx: number, sizePx = 11): string {
  const [, whole, panel] = PANEL.exec(text) ?? [];
  if (whole === undefined || panel === undefined || textWidthPx(text, sizePx) <= widthPx)
    return cutAtEnd(text, widthPx, sizePx);
  const number = ` p${panel}`;
  const name = cutAtEnd(whole, widthPx - textWidthPx(number, sizePx), sizePx);
  return name === '' ? cutAtEnd(`p${panel}`, widthPx, sizePx) : `${name}${number}`;
}

function cutAtEnd(text: string, widthPx: number, sizePx: number): string {
  const ellipsisPx = textWidthPx('…', sizePx);
  let whole = 0;
  let cut = '';
  let usedPx = 0;
  for (const character of text) {
    usedPx += textWidthPx(character, sizePx);
    if (usedPx > widthPx) return cut === '' ? '' : `${cut.trimEnd()}…`;
    whole += character.length;
    if (usedPx + ellipsisPx <= widthPx) cut = text.slice(0, whole);
  }
  return text;
}

/**
 * The class under which a label of a given width appears: from the picture width at which its fraction of the axis can
 * hold it; `null` when no usual width does.
 *
 * @param airPx required space at the label's sides
 */
export function fitClass(widthPx: number, share: number, airPx = 2): string | null {
  return fitOfAll([{ widthPx: widthPx + airPx, share }]);
}

/** {@link fitClass} of a label that needs several fractions of the axis, each for its own width. */
export function fitOfAll(needs: readonly { readonly widthPx: number; readonly share: number }[]): string | null {
  const needed = Math.max(...needs.map(({ widthPx, share }) => widthPx / share));
  const width = FIT_WIDTHS.find((one) => one >= needed);
  return width === undefined ? null : `fit-${width}`;
}
