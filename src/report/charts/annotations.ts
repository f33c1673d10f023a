import type { Chart, Plugin } from 'chart.js';
import { font, TEXT_PX } from './axes.js';
import { textWidthPx } from '../timeline/scale.js';
import { ink } from './inks.js';
import { clearLines, place, spread, type LinePoint } from './label-places.js';
import type { BackdropMark, LabelsMark, VerticalsMark } from './marks.js';

/** Draws labels. */
export function drawLabels({ labels, clearOf }: LabelsMark): Plugin {
  return {
    id: 'direct-labels',
    afterDatasetsDraw(chart) {
      const { ctx } = chart;
      const { family, size } = font(TEXT_PX, true);
      ctx.save();
      ctx.font = `${size}px "${family}"`;
      ctx.textBaseline = 'middle';
      const placed = place(chart as Chart, labels);
      spread(placed, chart.chartArea.bottom - TEXT_PX / 2);
      clearLines(
        placed,
        clearOf.map((name) => lineOf(chart as Chart, name)),
        chart.chartArea,
      );
      // Next to horizontal bars there are only grid lines, which would be between the figures.
      const isOnSheet = chart.options.indexAxis === 'y';
      for (const { label, x, y } of placed) {
        if (isOnSheet) {
          ctx.fillStyle = ink('paper');
          ctx.fillRect(x - 2, y - TEXT_PX / 2, ctx.measureText(label.text).width + 4, TEXT_PX);
        }
        ctx.lineWidth = 3;
        ctx.lineJoin = 'round';
        ctx.strokeStyle = ink('paper', 'bold');
        ctx.strokeText(label.text, x, y);
        ctx.fillStyle = ink(label.colour, 'bold');
        ctx.fillText(label.text, x, y);
      }
      ctx.restore();
    },
  };
}

/** A curve's points as they are drawn, px. */
function lineOf(chart: Chart, name: string): LinePoint[] {
  const index = chart.data.datasets.findIndex(({ label }) => label === name);
  return index < 0 ? [] : chart.getDatasetMeta(index).data.map(({ x, y }) => ({ x, y }));
}

/** Draws areas over the whole height behind the curves. */
export function drawBackdrop({ spans }: BackdropMark): Plugin {
  return {
    id: 'backdrop',
    beforeDraw(chart) {
      const { ctx, chartArea, scales } = chart;
      ctx.save();
      for (const { span, colour } of spans) {
        const left = Math.max(chartArea.left, scales.x?.getPixelForValue(span.startMs) ?? 0);
        const right = Math.min(chartArea.right, scales.x?.getPixelForValue(span.endMs) ?? 0);
        if (right <= left) continue;
        ctx.fillStyle = ink(colour);
        ctx.fillRect(left, chartArea.top, right - left, chartArea.bottom - chartArea.top);
      }
      ctx.restore();
    },
  };
}

/** Draws vertical lines at instants. */
export function drawVerticals({ at }: VerticalsMark): Plugin {
  return {
    id: 'verticals',
    beforeDatasetsDraw(chart) {
      const { ctx, chartArea, scales } = chart;
      ctx.save();
      ctx.lineWidth = 1.2;
      for (const { atMs, colour } of at) {
        const x = scales.x?.getPixelForValue(atMs);
        if (x === undefined || x < chartArea.left || x > chartArea.right) continue;
        ctx.strokeStyle = ink(colour, 'dashed');
        ctx.beginPath();
        ctx.moveTo(x, chartArea.top);
        ctx.lineTo(x, chartArea.bottom);
        ctx.stroke();
      }
      ctx.restore();
    },
  };
}

/** Space in px needed for labels outside the chart. */
export function outsideMargin(texts: readonly string[]): number {
  return 10 + Math.max(0, ...texts.map((text) => Math.ceil(textWidthPx(text, TEXT_PX))));
}
