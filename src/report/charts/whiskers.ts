import type { Plugin } from 'chart.js';
import { ink } from './inks.js';
import type { WhiskersMark } from './marks.js';

const CAP_PX = 3;

/** Draws thin lines with caps over the bars of the first data set. */
export function drawWhiskers({ spreads, along }: WhiskersMark): Plugin {
  return {
    id: 'whiskers',
    afterDatasetsDraw(chart) {
      const { ctx, scales } = chart;
      const scale = scales[along];
      if (!scale) return;
      ctx.save();
      ctx.strokeStyle = ink('ink');
      ctx.lineWidth = 1.2;
      ctx.beginPath();
      for (const [index, bar] of chart.getDatasetMeta(0).data.entries()) {
        const spread = spreads[index];
        if (!spread || spread.high === spread.low) continue;
        const [from, to] = [scale.getPixelForValue(spread.low), scale.getPixelForValue(spread.high)];
        const { x, y } = bar.getProps(['x', 'y'], true);
        const draw = (x0: number, y0: number, x1: number, y1: number): void => {
          ctx.moveTo(x0, y0);
          ctx.lineTo(x1, y1);
        };
        if (along === 'x') {
          draw(from, y, to, y);
          for (const end of [from, to]) draw(end, y - CAP_PX, end, y + CAP_PX);
        } else {
          draw(x, from, x, to);
          for (const end of [from, to]) draw(x - CAP_PX, end, x + CAP_PX, end);
        }
      }
      ctx.stroke();
      ctx.restore();
    },
  };
}
