import type { SKRSContext2D } from '@napi-rs/canvas';
import { duration, groupBy, sum, type JudgedFrame, type Night } from '../../model/index.js';
import { CANVAS_SANS, CANVAS_SANS_BOLD, CANVAS_SERIF, CANVAS_SERIF_BOLD, canvasWithFonts } from '../canvas-fonts.js';
import { colour } from '../design/tokens.js';
import { viewContext, type ViewContext } from '../html/view/context.js';
import { frontView } from '../html/view/front.js';
import { headline, type Phrase } from '../html/view/headline.js';
import { overviewSpan } from '../timeline/timeline.js';
import { skyBands } from '../timeline/sky-band.js';
import type { Format } from './format.js';

const WIDTH = 1200;
const HEIGHT = 630;
const MARGIN = 56;
/** Sizes that are still at least 11 px when the card is shown at a third of its size. */
const NAME_PX = 33;
const HOUR_PX = 33;
const FILTER_PX = 36;

const paint = (name: string): string => colour(name, 'light');

function rule(ctx: SKRSContext2D, y: number, name = 'ink'): void {
  ctx.fillStyle = paint(name);
  ctx.fillRect(MARGIN, y, WIDTH - 2 * MARGIN, 1.5);
}

function write(
  ctx: SKRSContext2D,
  text: string,
  x: number,
  y: number,
  family: string,
  size: number,
  name = 'ink',
  align: 'left' | 'right' = 'left',
): void {
  ctx.font = `${size}px "${family}"`;
  ctx.fillStyle = paint(name);
  ctx.textAlign = align;
  ctx.fillText(text, x, y);
}

interface Word {
  readonly text: string;
  readonly quantity: boolean;
}

/** Words of the headline; a quantity such as `4 min 25 s` counts as one, to keep it on one line. */
function wordsOf(phrases: readonly Phrase[]): Word[] {
  const words: { text: string; quantity: boolean }[] = [];
  let joins = false;
  for (const { text, quantity = false } of phrases) {
    for (const [index, piece] of (quantity ? [text] : text.split(' ')).entries()) {
      const last = words[words.length - 1];
      if (piece === '') {
        joins = false;
        continue;
      }
      // Punctuation stays with the previous word.
      if (last && index === 0 && joins && /^[;:,.]/.test(piece)) last.text += piece;
      else words.push({ text: piece, quantity });
    }
    joins = !text.endsWith(' ');
  }
  return words;
}

const SMALLEST_PX = 28;
const HEADLINE_PX = [46, 42, 38, 34, 31, SMALLEST_PX];
const LEADING = 1.28;
/** Between the rules above and below it. */
const HEADLINE_HEIGHT = 216;

/** Sets the headline in the largest size that fits the given lines; returns where it ended. */
function setHeadline(
  ctx: SKRSContext2D,
  phrases: readonly Phrase[],
  top: number,
  maxLines: number,
  widthPx: number,
): void {
  const words = wordsOf(phrases);
  for (const size of HEADLINE_PX) {
    const family = (word: Word): string => (word.quantity ? CANVAS_SERIF_BOLD : CANVAS_SERIF);
    const width = (word: Word): number => {
      ctx.font = `${size}px "${family(word)}"`;
      return ctx.measureText(word.text).width;
    };
    const space = size * 0.24;
    const lines: Word[][] = [[]];
    let x = 0;
    for (const word of words) {
      const wide = width(word);
      if (x > 0 && x + wide > widthPx) {
        lines.push([]);
        x = 0;
      }
      lines[lines.length - 1]?.push(word);
      x += wide + space;
    }
    const fits = Math.floor(HEADLINE_HEIGHT / (size * LEADING));
    if (lines.length > Math.min(fits, maxLines) && size > SMALLEST_PX) continue;
    for (const [row, line] of lines.slice(0, Math.max(fits, maxLines)).entries()) {
      let at = MARGIN;
      for (const word of line) {
        write(ctx, word.text, at, top + size + row * size * LEADING, family(word), size);
        at += width(word) + space;
      }
    }
    return;
  }
}

function drawFrame(
  ctx: SKRSContext2D,
  frame: JudgedFrame,
  left: number,
  width: number,
  y: number,
  height: number,
  context: ViewContext,
): void {
  const name = context.palette.filter(frame.filter).colour;
  ctx.fillStyle = paint(frame.verdict === 'kept' ? name : 'paper');
  ctx.fillRect(left, y, Math.max(0.6, width - 0.5), height);
  if (frame.verdict === 'kept') return;
  ctx.strokeStyle = paint(frame.verdict === 'lost' ? 'loss' : name);
  ctx.lineWidth = 1;
  ctx.strokeRect(left + 0.5, y + 0.5, Math.max(0.6, width - 1), height - 1);
  if (frame.verdict === 'doubtful') {
    ctx.fillStyle = paint(name);
    ctx.fillRect(left, y + height / 2, Math.max(0.6, width - 0.5), height / 2);
    return;
  }
  ctx.beginPath();
  ctx.moveTo(left, y);
  ctx.lineTo(left + width, y + height);
  ctx.moveTo(left, y + height);
  ctx.lineTo(left + width, y);
  ctx.stroke();
}

/** The trains' exposures below one another on the night's own axis, with the sky behind. */
function drawTimeline(ctx: SKRSContext2D, context: ViewContext, top: number, height: number): void {
  const { night, clock } = context;
  const span = overviewSpan(night);
  const at = (ms: number): number =>
    MARGIN + ((ms - span.startMs) / (span.endMs - span.startMs)) * (WIDTH - 2 * MARGIN);
  for (const band of skyBands(night.sky.almanac, span)) {
    ctx.fillStyle = paint(band.colour);
    ctx.fillRect(at(band.span.startMs), top, at(band.span.endMs) - at(band.span.startMs), height);
  }
  const lane = (height - 10) / Math.max(1, night.gathered.trains.length);
  for (const [index, train] of night.gathered.trains.entries()) {
    const y = top + 8 + index * lane;
    for (const frame of night.accounts.lights.filter((one) => one.train === train.id)) {
      drawFrame(
        ctx,
        frame,
        at(frame.exposure.startMs),
        at(frame.exposure.endMs) - at(frame.exposure.startMs),
        y + NAME_PX,
        lane - NAME_PX - 6,
        context,
      );
    }
    write(ctx, train.id, MARGIN + 6, y + NAME_PX - 6, CANVAS_SANS_BOLD, NAME_PX);
  }
  const ticks = clock.ticks(span.startMs, span.endMs, 120);
  for (const tick of ticks) {
    const x = at(tick);
    if (x < MARGIN + 20 || x > WIDTH - MARGIN - 20) continue;
    ctx.textAlign = 'center';
    ctx.font = `${HOUR_PX}px "${CANVAS_SANS}"`;
    ctx.fillStyle = paint('ink-soft');
    ctx.fillText(clock.time(tick).slice(0, 2), x, top + height + HOUR_PX + 2);
  }
}

/** Kept hours per filter over all targets and trains, longest first, each with its colour. */
function drawFilters(ctx: SKRSContext2D, { night, palette }: ViewContext, top: number): void {
  const kept = [...groupBy(night.accounts.totals, ({ filter }) => filter)]
    .map(([filter, own]) => ({ style: palette.filter(filter), ms: sum(own.map(({ ms }) => ms.kept)) }))
    .filter(({ ms }) => ms > 0)
    .sort((a, b) => b.ms - a.ms);
  let x = MARGIN;
  for (const { style, ms } of kept) {
    const text = `${style.short} ${duration(ms)}`;
    ctx.font = `${FILTER_PX}px "${CANVAS_SANS}"`;
    const width = 34 + ctx.measureText(text).width;
    if (x + width > WIDTH - MARGIN) break;
    ctx.fillStyle = paint(style.colour);
    ctx.fillRect(x, top + 6, 24, 24);
    write(ctx, text, x + 34, top + FILTER_PX - 4, CANVAS_SANS, FILTER_PX);
    x += width + 34;
  }
}

/** Space for the picture of a field between the two rules. */
const PICTURE = { top: 94, width: 300, height: 208, gap: 30 } as const;

/** The night's first field at the right of the headline. @returns the width that it takes, px */
async function drawSharpest(ctx: SKRSContext2D, { pictures }: Night): Promise<number> {
  const first = pictures?.fields[0]?.picture;
  if (first === undefined) return 0;
  const { loadImage } = await import('@napi-rs/canvas');
  const image = await loadImage(Buffer.from(first.uri.slice(first.uri.indexOf(',') + 1), 'base64'));
  const scale = Math.min(PICTURE.width / image.width, PICTURE.height / image.height);
  const width = image.width * scale;
  ctx.drawImage(image, WIDTH - MARGIN - width, PICTURE.top, width, image.height * scale);
  return width + PICTURE.gap;
}

/** A picture of 1200 × 630 for link previews: the sentence, the hours per filter, the timeline. */
export const card: Format = {
  id: 'card',
  extension: 'png',
  title: 'a picture of 1200 × 630 for sharing',
  async render(night: Night, { share }) {
    const { createCanvas } = await canvasWithFonts();
    const context = viewContext(night, { share });
    const front = frontView(context);
    const canvas = createCanvas(WIDTH, HEIGHT);
    const ctx = canvas.getContext('2d');
    ctx.fillStyle = paint('paper');
    ctx.fillRect(0, 0, WIDTH, HEIGHT);
    write(ctx, front.title, MARGIN, 66, CANVAS_SERIF_BOLD, 38);
    write(ctx, 'nightledger', WIDTH - MARGIN, 66, CANVAS_SERIF, 30, 'ink-soft', 'right');
    rule(ctx, 84);
    const pictured = await drawSharpest(ctx, night);
    setHeadline(ctx, headline(context), 92, 4, WIDTH - 2 * MARGIN - pictured);
    rule(ctx, 312);
    drawFilters(ctx, context, 322);
    drawTimeline(ctx, context, 374, 208);
    return canvas.toBuffer('image/png');
  },
};
