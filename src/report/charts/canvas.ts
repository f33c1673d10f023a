import type { Canvas, SvgCanvas, SvgExportFlag as ExportFlag } from '@napi-rs/canvas';
import type { ChartConfiguration } from 'chart.js';
import { dependencyFile } from '../package-files.js';

/** Families the letters of charts are measured in: the same files that the page embeds. */
export const CHART_FONT = 'Nightledger Sans';
export const CHART_FONT_BOLD = 'Nightledger Sans Bold';

/** Draws charts as SVG text. */
export type DrawChart = (config: ChartConfiguration, width: number, height: number) => string;

async function load(): Promise<DrawChart> {
  // Read by the canvas when it loads: only the letters we ship are used, so the picture is the same on every machine.
  process.env['DISABLE_SYSTEM_FONTS_LOAD'] ??= '1';
  const { createCanvas, GlobalFonts, SvgExportFlag } = await import('@napi-rs/canvas');
  const { ChartJSNodeCanvas } = await import('chartjs-node-canvas');
  GlobalFonts.registerFromPath(dependencyFile('@fontsource/source-sans-3', 'files/source-sans-3-latin-400-normal.woff2'), CHART_FONT);
  GlobalFonts.registerFromPath(dependencyFile('@fontsource/source-sans-3', 'files/source-sans-3-latin-600-normal.woff2'), CHART_FONT_BOLD);

  // Stands in for the renderer's own `createCanvas`, and has its signatures: whatever is asked for, a vector canvas
  // comes. The renderer asks its canvas for a buffer; a vector canvas has its document instead.
  function vectorCanvas(width?: number, height?: number): Canvas;
  function vectorCanvas(width: number, height: number, flag: ExportFlag): SvgCanvas;
  function vectorCanvas(width = 0, height = 0): Canvas | SvgCanvas {
    const canvas = createCanvas(width, height, SvgExportFlag.NoPrettyXML);
    return Object.assign(canvas, { toBuffer: () => canvas.getContent() });
  }

  class VectorCharts extends ChartJSNodeCanvas {
    protected override readonly _createCanvas = vectorCanvas;
  }
  return (config, width, height) => new VectorCharts({ width, height, type: 'svg' }).renderToBufferSync(config, 'image/svg+xml').toString('utf8');
}

let loading: Promise<DrawChart> | undefined;

/** The chart drawer, loaded on first use. */
export function chartDrawer(): Promise<DrawChart> {
  return (loading ??= load());
}
