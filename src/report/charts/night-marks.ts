import type { Plugin } from 'chart.js';
import { ink } from './inks.js';
import type { DitherTicksMark, MoonLineMark } from './marks.js';

const TICK_PX = 6;

/** Ticks at the foot of the chart. */
export function drawDitherTicks({ atMs: instants }: DitherTicksMark): Plugin {
  return {
    id: 'dither-ticks',
    beforeDatasetsDraw({ ctx, chartArea, scales }) {
      ctx.save();
      ctx.lineWidth = 1.2;
      ctx.strokeStyle = ink('ink-soft');
      ctx.beginPath();
      for (const atMs of instants) {
        const x = scales.x?.getPixelForValue(atMs);
        if (x === undefined || x < chartArea.left || x > chartArea.right) continue;
        ctx.moveTo(x, chartArea.bottom - TICK_PX);
        ctx.lineTo(x, chartArea.bottom);
      }
      ctx.stroke();
      ctx.restore();
    },
  };
}

/** A line along the top of the chart. */
export function drawMoonLine({ spans }: MoonLineMark): Plugin {
  return {
    id: 'moon-line',
    beforeDatasetsDraw({ ctx, chartArea, scales }) {
      ctx.save();
      ctx.lineWidth = 3;
      ctx.strokeStyle = ink('ink-soft');
      for (const { startMs, endMs } of spans) {
        const left = Math.max(chartArea.left, scales.x?.getPixelForValue(startMs) ?? 0);
        const right = Math.min(chartArea.right, scales.x?.getPixelForValue(endMs) ?? 0);
        if (right <= left) continue;
        ctx.beginPath();
        ctx.moveTo(left, chartArea.top + 1.5);
        ctx.lineTo(right, chartArea.top + 1.5);
        ctx.stroke();
      }
      ctx.restore();
    },
  };
}
