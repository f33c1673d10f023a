import type { Canvas, SvgCanvas, SvgExportFlag as ExportFlag } from '@napi-rs/canvas';
import type { ChartConfiguration, Plugin } from 'chart.js';
import { canvasWithFonts } from '../canvas-fonts.js';
import { roomForTitles, withFittingTitle, type TitledScale } from './axis-titles.js';
import type { ChartConfig } from './chart.js';
import { pluginOf } from './mark-plugins.js';
import { withTickLabels } from './tick-labels.js';

/** Draws charts as SVG text. */
export type DrawChart = (config: ChartConfig, width: number, height: number) => string;

/** A chart as passed to the library: with functions in place of the names in the plain data. */
function configurationOf({ marks, options, ...config }: ChartConfig, heightPx: number): ChartConfiguration {
  const labelled = Object.entries(options?.scales ?? {}).map(([id, scale]): [string, TitledScale] => [
    id,
    { ...withTickLabels(scale ?? {}) },
  ]);
  const roomPx = roomForTitles(
    labelled.map(([, scale]) => scale),
    heightPx,
  );
  const scales = Object.fromEntries(labelled.map(([id, scale]) => [id, withFittingTitle(scale, roomPx)]));
  return { ...config, plugins: marks.map(pluginOf), options: { ...options, scales } };
}

/** The library's own plugins: each is notified of every step of every chart, and none of our charts uses them. */
const UNUSED = ['colors', 'decimation', 'filler', 'legend', 'subtitle', 'title', 'tooltip'];

async function load(): Promise<DrawChart> {
  const { createCanvas, SvgExportFlag } = await canvasWithFonts();
  const { ChartJSNodeCanvas } = await import('chartjs-node-canvas');

  // A single renderer draws every chart: each new one would load the chart library again. The size of the next chart is
  // therefore taken from here, not from the renderer, which is created once.
  let next = { width: 1, height: 1 };

  // Replaces the renderer's own `createCanvas`, with the same signatures, and always returns a vector canvas. The
  // renderer asks its canvas for a buffer; a vector canvas returns its document instead.
  function vectorCanvas(width?: number, height?: number): Canvas;
  function vectorCanvas(width: number, height: number, flag: ExportFlag): SvgCanvas;
  function vectorCanvas(): Canvas | SvgCanvas {
    const canvas = createCanvas(next.width, next.height, SvgExportFlag.NoPrettyXML);
    return Object.assign(canvas, { toBuffer: () => canvas.getContent() });
  }

  class VectorCharts extends ChartJSNodeCanvas {
    protected override readonly _createCanvas = vectorCanvas;
  }
  // The vector canvas writes text glyph by glyph, and omits the letters of a ligature (ff, fi).
  const noLigatures: Plugin = {
    id: 'no-ligatures',
    beforeUpdate: ({ ctx }) => {
      Object.assign(ctx, { fontVariantLigatures: 'none' });
    },
  };
  const charts = new VectorCharts({
    ...next,
    type: 'svg',
    chartCallback: (ChartJS) => {
      for (const id of UNUSED) ChartJS.unregister(ChartJS.registry.getPlugin(id) ?? []);
      ChartJS.register(noLigatures);
    },
  });
  return (config, width, height) => {
    next = { width, height };
    return charts.renderToBufferSync(configurationOf(config, height), 'image/svg+xml').toString('utf8');
  };
}

let loading: Promise<DrawChart> | undefined;

/** The chart drawer, loaded on first use. */
export function chartDrawer(): Promise<DrawChart> {
  return (loading ??= load());
}
