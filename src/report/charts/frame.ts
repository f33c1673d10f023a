import type { ChartDataset } from 'chart.js';
import { font } from './axes.js';
import type { LinearScale } from './axes.js';
import type { ChartConfig } from './chart.js';
import type { Mark } from './marks.js';

/**
 * A chart of strokes and curves over time, the common layout of such charts.
 *
 * @param marginPx space right of the chart for labels outside it
 */
export function timeChart(
  datasets: readonly ChartDataset[],
  scales: Record<string, LinearScale>,
  marks: readonly Mark[],
  marginPx = 6,
): ChartConfig {
  return {
    type: 'scatter',
    data: { datasets: [...datasets] },
    marks,
    options: {
      font: font(),
      layout: { padding: { right: marginPx, top: 2 } },
      scales,
    },
  };
}
