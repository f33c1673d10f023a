import { durationMs, formatSource, groupBy, type Cause, type JudgedFrame } from '../../../model/index.js';
import { verdictArea } from '../../design/area.js';
import type { Palette } from '../../design/filters.js';
import { tokens } from '../../design/tokens.js';
import { counted, decimal } from '../../text/number.js';
import type { ViewContext } from './context.js';
import { column, figures, screenOnly, words, type Cell, type Row, type Table } from './table.js';

/** Name of a frame in running text: its file without folders, else its id. */
export function frameName(frame: JudgedFrame): string {
  return frame.file?.split('/').at(-1) ?? frame.id;
}

const seconds = (frame: JudgedFrame): Cell => {
  const ms = durationMs(frame.exposure);
  return figures(decimal(ms / 1000, ms % 1000 === 0 ? 0 : 1), ms);
};

function verdictCell(frame: JudgedFrame, context: ViewContext): Cell {
  const { label } = tokens().verdicts[frame.verdict];
  return words(label, { swatch: verdictArea(context.palette.filter(frame.filter).colour, frame.verdict), className: `v-${frame.verdict}` });
}

function causeLines(cause: Cause, context: ViewContext): string[] {
  const by = cause.causedBy === undefined ? '' : ` by ${cause.causedBy}`;
  const span = `${context.clock.seconds(cause.span.startMs)} to ${context.clock.seconds(cause.span.endMs)}, ${decimal(cause.overlapMs / 1000, 1)} s of the exposure`;
  const where = cause.sources.map(formatSource).join(', ');
  return [`${tokens().causes[cause.kind]}${by}: ${span}`, `${cause.evidence}`, `${cause.certainty}${where === '' ? '' : `; ${where}`}`];
}

/** Frames that are not simply kept, with what happened and where that is written. */
export function harmedTable(context: ViewContext): Table | null {
  const { night, clock, palette } = context;
  const harmed = night.frames.filter((frame) => frame.verdict !== 'kept');
  if (harmed.length === 0) return null;
  return {
    caption: 'Lost and doubtful frames with their causes', name: 'harmed', sortable: true,
    columns: [column('Verdict'), column('Train'), column('Frame'), column('Begin', 'figures'), column('Filter'), column('s', 'figures'), column('Cause and evidence')],
    rows: harmed.map((frame): Row => ({
      id: `cause-${frame.id}`,
      cells: [
        verdictCell(frame, context), words(frame.train), words(frameName(frame), { anchor: `frame-${frame.id}`, header: true }),
        figures(clock.seconds(frame.exposure.startMs), frame.exposure.startMs), words(palette.filter(frame.filter).label), seconds(frame),
        words(frame.causes[0] === undefined ? 'no cause is recorded' : '', { lines: frame.causes.flatMap((cause) => causeLines(cause, context)) }),
      ],
    })),
  };
}

function exposureCell(frame: JudgedFrame, palette: Palette): Cell {
  const ms = durationMs(frame.exposure);
  return words(`${palette.filter(frame.filter).label} ${decimal(ms / 1000, ms % 1000 === 0 ? 0 : 1)}`);
}

/** Every light of one train, in order of time. */
export interface TrainFrames {
  readonly train: string;
  readonly table: Table;
}

function frameRow(frame: JudgedFrame, { clock, utc, palette, ...rest }: ViewContext): Row {
  const { sky, guiding, smear, header, exposure } = frame;
  return {
    id: `frame-${frame.id}`,
    cells: [
      words(frameName(frame), frame.verdict === 'kept' ? {} : { anchor: `cause-${frame.id}` }),
      figures(clock.seconds(exposure.startMs), exposure.startMs), screenOnly(figures(utc.seconds(exposure.startMs), exposure.startMs)),
      exposureCell(frame, palette),
      frame.verdict === 'kept' ? words(tokens().verdicts.kept.label) : verdictCell(frame, { clock, utc, palette, ...rest }),
      figures(decimal(sky?.altitudeDeg, 1), sky?.altitudeDeg), screenOnly(figures(decimal(sky?.airmass, 2), sky?.airmass)),
      figures(decimal(sky?.moonSeparationDeg, 1), sky?.moonSeparationDeg), screenOnly(figures(decimal(sky?.moonAltitudeDeg, 1), sky?.moonAltitudeDeg)),
      figures(decimal(guiding?.totalRmsArcsec, 2), guiding?.totalRmsArcsec), screenOnly(figures(decimal(smear?.trailPixels, 1), smear?.trailPixels)), figures(decimal(header?.starSize, 2), header?.starSize),
    ],
  };
}

/** Every light of the night, a table a train. */
export function framesTables(context: ViewContext): TrainFrames[] {
  return context.night.trains.flatMap(({ id }): TrainFrames[] => {
    const frames = context.night.frames.filter((frame) => frame.train === id);
    if (frames.length === 0) return [];
    return [{
      train: id,
      table: {
        caption: `${id}: ${counted(frames.length, 'light')}`, name: 'frames', sortable: true,
        columns: [
          column('Frame'), column('Begin', 'figures'), column('UTC', 'figures', 'screen'), column('Filter, s'), column('Verdict'),
          column('Altitude °', 'figures'), column('Airmass', 'figures', 'screen'), column('Moon distance °', 'figures'), column('Moon altitude °', 'figures', 'screen'),
          column('Guiding ″', 'figures'), column('Trail px', 'figures', 'screen'), column('Star size', 'figures'),
        ],
        rows: [],
        bodies: [...groupBy(frames, (frame) => frame.target ?? '')].map(([target, list]) => ({ head: target === '' ? 'no target named' : target, rows: list.map((frame) => frameRow(frame, context)) })),
      },
    }];
  });
}
