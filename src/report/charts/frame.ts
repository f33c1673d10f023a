import type { ChartConfiguration, ChartDataset, Plugin } from 'chart.js';
import { font } from './axes.js';
import type { LinearScale } from './axes.js';

/**
 * A chart of strokes and curves over time, as every such chart of the report is set.
 *
 * @param marginPx room right of the chart, for labels that stand outside
 */
export function timeChart(
  datasets: readonly ChartDataset[],
  scales: Record<string, LinearScale>,
  plugins: readonly Plugin<'scatter' | 'bar'>[],
  marginPx = 6,
): ChartConfiguration {
  return {
    type: 'scatter',
    data: { datasets: [...datasets] },
    plugins: [...plugins],
    options: {
      font: font(),
      layout: { padding: { right: marginPx, top: 2 } },
      plugins: { legend: { display: false }, tooltip: { enabled: false } },
      scales,
    },
  };
}
