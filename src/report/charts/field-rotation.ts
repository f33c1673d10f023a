import { decimal, groupBy, listed, median, ownValue, type Night, type TrainPointing } from '../../model/index.js';
import { directLabels, type DirectLabel } from './marks.js';
import { timeScales, valueScale } from './axes.js';
import type { Chart, ChartContext, ChartDrawing, NoDrawing } from './chart.js';
import { timeChart } from './frame.js';
import { curve, thinOut, type Point } from './series.js';
import { workSpan } from './sky-span.js';

const MOST_POINTS = 160;

/** The frames' rotation without the 180° of a flip, degrees from the median of each side of the pier. */
function rotations(night: Night, { train, target }: TrainPointing): readonly (readonly Point[])[] {
  const frames = night.accounts.lights.flatMap((light) => {
    const shift =
      light.train === train && light.target === target ? ownValue(night.stars?.frames, light.id)?.shift : null;
    if (!shift) return [];
    const flipped = Math.abs(shift.rotation) > 90;
    const turned = flipped ? shift.rotation - Math.sign(shift.rotation) * 180 : shift.rotation;
    return [{ x: (light.exposure.startMs + light.exposure.endMs) / 2, y: turned, flipped }];
  });
  return [...groupBy(frames, ({ flipped }) => flipped).values()].map((side) => {
    const level = median(side.map(({ y }) => y));
    return thinOut(
      side.map(({ x, y }) => ({ x, y: y - level })),
      MOST_POINTS,
    );
  });
}

function rateText({ train, target, rotation }: TrainPointing): string {
  return `${train} on ${target}: ${decimal(rotation?.degPerHour, 3)}° per hour`;
}

export const fieldRotation: Chart = {
  id: 'field-rotation',
  title: 'Rotation of the field',
  draw(night: Night, context: ChartContext): ChartDrawing | NoDrawing {
    const known = (night.stars?.pointings ?? []).filter(({ rotation }) => rotation !== null);
    if (known.length === 0) return { missing: 'too few frames could be registered' };
    const labels: DirectLabel[] = [];
    const curves = known.flatMap((pointing) => {
      const colour = context.palette.train(pointing.train);
      const own = rotations(night, pointing);
      const last = own.at(-1)?.at(-1);
      if (last) labels.push({ x: last.x, y: last.y, text: pointing.train, colour, align: 'right', dy: -9 });
      return own.map((points) => curve(pointing.train, points, colour, { width: 1.8 }));
    });
    return {
      config: timeChart(
        curves,
        {
          ...timeScales(context, workSpan(night)),
          // A hundredth of a degree moves the corner of a large sensor by two thirds of a pixel: less is noise.
          y: valueScale('degrees from the median', { digits: 3, suggestedMin: -0.01, suggestedMax: 0.01 }),
        },
        [directLabels(labels)],
      ),
      heightPx: context.size === 'narrow' ? 210 : 220,
      altText: `Rotation of the field against each target’s reference frame. ${listed(known.map(rateText))}.`,
      table: null,
    };
  },
};
