import { chartDrawer } from './canvas.js';
import type { ChartConfig } from './chart.js';
import { pageSvg } from './svg.js';

/** One picture to draw: plain data that can be sent to another thread. */
export interface ChartJob {
  readonly config: ChartConfig;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Prefix of the picture's ids, unique within the page. */
  readonly id: string;
  /** The content of the chart as alternative text. */
  readonly label: string;
}

/** Draws a picture in the calling thread. @returns SVG as the page takes it */
export async function drawHere({ config, widthPx, heightPx, id, label }: ChartJob): Promise<string> {
  const draw = await chartDrawer();
  return pageSvg(draw(config, widthPx, heightPx), id, label);
}
