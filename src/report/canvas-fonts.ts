import type * as Canvas from '@napi-rs/canvas';
import { fontFile } from './package-files.js';

/** Font families for measuring and drawing text on the canvas: the same files that the page embeds. */
export const CANVAS_SANS = 'Nightledger Sans';
export const CANVAS_SANS_BOLD = 'Nightledger Sans Bold';
export const CANVAS_SERIF = 'Nightledger Serif';
export const CANVAS_SERIF_BOLD = 'Nightledger Serif Bold';

const FACES = [
  [CANVAS_SANS, 'source-sans-3', 400],
  [CANVAS_SANS_BOLD, 'source-sans-3', 600],
  [CANVAS_SERIF, 'source-serif-4', 400],
  [CANVAS_SERIF_BOLD, 'source-serif-4', 600],
] as const;

let loading: Promise<typeof Canvas> | undefined;

async function load(): Promise<typeof Canvas> {
  // Read by the canvas as it loads: with only our fonts the picture is the same on every machine, and ready sooner.
  process.env.DISABLE_SYSTEM_FONTS_LOAD ??= '1';
  const canvas = await import('@napi-rs/canvas');
  for (const [family, stem, weight] of FACES) {
    canvas.GlobalFonts.registerFromPath(fontFile(stem, `files/${stem}-latin-${weight}-normal.woff2`), family);
  }
  return canvas;
}

/** The canvas library with our fonts, loaded on first use. */
export function canvasWithFonts(): Promise<typeof Canvas> {
  return (loading ??= load());
}
