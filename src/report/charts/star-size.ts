import { decimal, fwhmArcsec, halfFluxNote, listed, median, type Night, lightsOf } from '../../model/index.js';
import { outsideMargin } from './annotations.js';
import { directLabels, type DirectLabel } from './marks.js';
import { timeScales, valueScale } from './axes.js';
import type { Chart, ChartContext, ChartDrawing, NoDrawing } from './chart.js';
import { timeChart } from './frame.js';
import { refocuses, refocusMarks } from './refocuses.js';
import { strokes } from './series.js';
import { workSpan } from './sky-span.js';

/** Number of frames at the end of the night at whose median the train's name is placed. */
const LAST_FRAMES = 5;

function marksText(count: number): string {
  if (count === 0) return 'No refocus is logged.';
  return count === 1 ? 'A vertical line marks the refocus.' : `Vertical lines mark ${count} refocuses.`;
}

/** Half-flux radii are shown as FWHM, which must be noted. */
function byHalfFlux({ accounts }: Night): string {
  const note = halfFluxNote(accounts.lights);
  return note === '' ? '' : ` (${note})`;
}

export const starSize: Chart = {
  id: 'star-size',
  title: 'Star size of each frame',
  draw(night: Night, context: ChartContext): ChartDrawing | NoDrawing {
    const trains = night.gathered.trains
      .map(({ id, pixelScaleArcsec }, index) => ({
        id,
        index,
        values: lightsOf(night, id).flatMap(({ exposure, header }) => {
          const fwhm = fwhmArcsec(header, pixelScaleArcsec);
          return fwhm === undefined ? [] : [{ span: exposure, y: fwhm }];
        }),
      }))
      .filter(({ values }) => values.length > 0);
    if (trains.length === 0) return { missing: 'no header gives a star size, or the pixel scale is not known' };
    const span = workSpan(night);
    const labels = trains.map(
      ({ id, values }): DirectLabel => ({
        x: span.endMs,
        y: median(values.slice(-LAST_FRAMES).map(({ y }) => y)),
        text: id,
        colour: context.palette.train(id),
        outside: true,
      }),
    );
    const middles = trains.map(({ id, values }) => `${id} ${decimal(median(values.map(({ y }) => y)), 2)}`);
    return {
      config: timeChart(
        [...trains].reverse().map(({ id, index, values }) => strokes(id, values, context.palette.train(id), index)),
        { ...timeScales(context, span), y: valueScale('FWHM, arcsec', { digits: 1 }) },
        [refocusMarks(night, context), directLabels(labels)],
        outsideMargin(labels.map((label) => label.text)),
      ),
      heightPx: context.size === 'narrow' ? 240 : 260,
      altText:
        `FWHM of each frame’s stars in arcseconds by its header${byHalfFlux(night)}; medians: ` +
        `${listed(middles)}. ${marksText(refocuses(night).length)}`,
      table: null,
    };
  },
};
