import type { Chart, Plugin } from 'chart.js';
import { font, TEXT_PX } from './axes.js';
import { textWidthPx } from '../timeline/scale.js';
import { ink } from './inks.js';
import type { BackdropMark, DirectLabel, LabelsMark, UprightsMark } from './marks.js';

interface Placed {
  readonly label: DirectLabel;
  readonly left: number;
  readonly right: number;
  readonly x: number;
  y: number;
}

function place(chart: Chart, labels: readonly DirectLabel[]): Placed[] {
  const { ctx, chartArea } = chart;
  return labels.flatMap((label): Placed[] => {
    const [x, y] = [
      chart.scales.x?.getPixelForValue(label.x),
      chart.scales[label.axis ?? 'y']?.getPixelForValue(label.y),
    ];
    if (x === undefined || y === undefined) return [];
    const width = ctx.measureText(label.text).width;
    const align = label.align ?? 'left';
    const at = x + (label.dx ?? 0);
    const wanted = align === 'right' ? at - width : align === 'center' ? at - width / 2 : at;
    const left = label.outside
      ? chartArea.right + 6
      : Math.min(Math.max(wanted, chartArea.left + 2), chart.width - width - 2);
    return [
      {
        label,
        left,
        right: left + width,
        x: left,
        y: Math.min(Math.max(y + (label.dy ?? 0), chartArea.top + TEXT_PX / 2), chartArea.bottom - TEXT_PX / 2),
      },
    ];
  });
}

/** Moves labels that share a place apart, downwards, and back up from the floor. */
function spread(placed: Placed[], floor: number): void {
  placed.sort((a, b) => a.y - b.y);
  for (const [index, one] of placed.entries()) {
    for (const other of placed.slice(0, index)) {
      if (one.left < other.right && other.left < one.right && one.y - other.y < TEXT_PX + 1)
        one.y = other.y + TEXT_PX + 1;
    }
    if (one.y > floor) one.y = floor;
  }
  for (let index = placed.length - 2; index >= 0; index--) {
    const one = placed[index];
    for (const other of placed.slice(index + 1)) {
      if (one && one.left < other.right && other.left < one.right && other.y - one.y < TEXT_PX + 1)
        one.y = other.y - TEXT_PX - 1;
    }
  }
}

/** Draws labels. */
export function drawLabels({ labels }: LabelsMark): Plugin {
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
      for (const { label, x, y } of placed) {
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
export function drawUprights({ at }: UprightsMark): Plugin {
  return {
    id: 'uprights',
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

/** Room in px that labels outside the chart need. */
export function outsideMargin(texts: readonly string[]): number {
  return 10 + Math.max(0, ...texts.map((text) => Math.ceil(textWidthPx(text, TEXT_PX))));
}
