import type { ChartDrawing, Chart } from '../../src/report/charts/chart.js';
import { paletteOf } from '../../src/report/design/filters.js';
import { clockOf } from '../../src/vocabulary/index.js';
import type { Night } from '../../src/model/index.js';

/** Draws a chart of a night, or throws with the reason why there is none. */
export function drawn(chart: Chart, night: Night): ChartDrawing {
  const drawing = chart.draw(night, contextOf(night));
  if ('missing' in drawing) throw new Error(`${chart.id} is not drawn: ${drawing.missing}`);
  return drawing;
}

/** The reason why a chart is not drawn; empty when it is. */
export function missingOf(chart: Chart, night: Night): string {
  const drawing = chart.draw(night, contextOf(night));
  return 'missing' in drawing ? drawing.missing : '';
}

const contextOf = (night: Night) => ({
  clock: clockOf(night.gathered.site?.timezone ?? 'UTC'),
  palette: paletteOf(night),
  size: 'wide' as const,
});

/** Labels of a drawing's data sets with their count of points. */
export function outline(drawing: ChartDrawing): Record<string, number> {
  return Object.fromEntries(drawing.config.data.datasets.map((set) => [set.label ?? '', set.data.length]));
}

/** The heights of one data set's points. */
export function heights(drawing: ChartDrawing, label: string): number[] {
  const set = drawing.config.data.datasets.find((one) => one.label === label);
  return (set?.data ?? []).map((point) =>
    typeof point === 'object' && point !== null && 'y' in point ? Number(point.y) : Number(point),
  );
}
