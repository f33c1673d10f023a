import type { Plugin } from 'chart.js';
import type { SKRSContext2D } from '@napi-rs/canvas';
import { tokens, type PatternName } from '../design/tokens.js';
import { ink } from './inks.js';
import type { BarPatternsMark } from './marks.js';

interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** The drawing methods used; the chart's own context has them. */
type Pen = Pick<SKRSContext2D, 'beginPath' | 'moveTo' | 'lineTo' | 'stroke' | 'fillRect' | 'strokeRect'> & {
  fillStyle: unknown;
  strokeStyle: unknown;
  lineWidth: number;
};

function cross(pen: Pen, { left, top, width, height }: Box): void {
  pen.beginPath();
  pen.moveTo(left, top);
  pen.lineTo(left + width, top + height);
  pen.moveTo(left, top + height);
  pen.lineTo(left + width, top);
  pen.lineWidth = 1.2;
  pen.stroke();
}

function dashes(pen: Pen, { left, top, width, height }: Box, pattern: PatternName): void {
  const [dash = 2, gap = 2] = tokens().patterns[pattern].split(' ').map(Number);
  pen.beginPath();
  for (let x = left + dash / 2; x < left + width; x += dash + gap) {
    pen.moveTo(x, top);
    pen.lineTo(x, top + height);
  }
  pen.lineWidth = dash;
  pen.stroke();
}

/** Redraws one bar: first the paper colour, then its pattern, then its outline. */
function lay(pen: Pen, box: Box, pattern: PatternName, colour: string): void {
  pen.fillStyle = ink('paper');
  pen.fillRect(box.left, box.top, box.width, box.height);
  pen.strokeStyle = pattern === 'crossed' ? ink('loss') : colour;
  pen.fillStyle = colour;
  if (pattern === 'crossed') cross(pen, box);
  else if (pattern === 'half') pen.fillRect(box.left, box.top + box.height / 2, box.width, box.height / 2);
  else if (pattern !== 'outline') dashes(pen, box, pattern);
  pen.lineWidth = 1;
  pen.strokeRect(box.left, box.top, box.width, box.height);
}

/** Draws each bar in its data set's pattern. */
export function drawBarPatterns({ patterns }: BarPatternsMark): Plugin {
  return {
    id: 'bar-patterns',
    afterDatasetsDraw(chart) {
      for (const [index, pattern] of patterns.entries()) {
        if (pattern === 'solid') continue;
        for (const bar of chart.getDatasetMeta(index).data) {
          const { x, y, base, height } = bar.getProps(['x', 'y', 'base', 'height'], true) as {
            x: number;
            y: number;
            base: number;
            height: number;
          };
          const width = Math.abs(x - base);
          if (width < 0.5) continue;
          chart.ctx.save();
          lay(
            chart.ctx,
            { left: Math.min(x, base), top: y - height / 2, width, height },
            pattern,
            String(bar.options.borderColor),
          );
          chart.ctx.restore();
        }
      }
    },
  };
}
