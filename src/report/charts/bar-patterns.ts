import type { Plugin } from 'chart.js';
import { tokens, type PatternName } from '../design/tokens.js';
import { ink } from './inks.js';

/** What a bar of the dataset with the same index is laid down in, beside its colour. */
export function barPatterns(patterns: readonly PatternName[]): Plugin<'scatter' | 'bar'> {
  return {
    id: 'bar-patterns',
    afterDatasetsDraw(chart) {
      const { ctx } = chart;
      for (const [index, pattern] of patterns.entries()) {
        if (pattern === 'solid') continue;
        for (const bar of chart.getDatasetMeta(index).data) {
          const { x, y, base, height } = bar.getProps(['x', 'y', 'base', 'height'], true) as { x: number; y: number; base: number; height: number };
          const [left, right, top, bottom] = [Math.min(x, base), Math.max(x, base), y - height / 2, y + height / 2];
          if (right - left < 0.5) continue;
          ctx.save();
          ctx.fillStyle = ink('paper');
          ctx.fillRect(left, top, right - left, bottom - top);
          ctx.beginPath();
          if (pattern === 'crossed') {
            ctx.moveTo(left, top); ctx.lineTo(right, bottom); ctx.moveTo(left, bottom); ctx.lineTo(right, top);
            ctx.strokeStyle = ink('loss');
            ctx.lineWidth = 1.2;
          } else {
            const [dash = 2, gap = 2] = tokens().patterns[pattern].split(' ').map(Number);
            for (let at = left + dash / 2; at < right; at += dash + gap) { ctx.moveTo(at, top); ctx.lineTo(at, bottom); }
            ctx.strokeStyle = String(bar.options['borderColor']);
            ctx.lineWidth = dash;
          }
          ctx.stroke();
          ctx.strokeStyle = pattern === 'crossed' ? ink('loss') : String(bar.options['borderColor']);
          ctx.lineWidth = 1;
          ctx.strokeRect(left, top, right - left, bottom - top);
          ctx.restore();
        }
      }
    },
  };
}
