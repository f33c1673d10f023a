/** The plan's tables. */
import {
  CAUTION,
  decimal,
  duration,
  durationMs,
  percent,
  UNKNOWN,
  type Plan,
  type PlannedBlock,
  type PlannedLine,
  type PlannedNight,
} from '../../model/index.js';
import { column, figures, withoutEmptyColumns, words, type Cell, type Table } from '../html/view/table.js';
import { dateText, dayText } from '../progress/dates.js';
import { freeClause, freeText, inOrder } from './free.js';
import {
  briefOf,
  comingOf,
  ditherOf,
  exposuresOf,
  LEFT_CAPTION,
  leftText,
  nothingText,
  notesOf,
  skyOf,
  spanOf,
  stillNeeded,
  timeOf,
  type TimeText,
} from './wording.js';

export interface PlanView {
  readonly tonight: Table | null;
  readonly nothing: string;
  readonly adds: Table | null;
  readonly coming: Table | null;
  readonly left: Table | null;
  readonly after: string | null;
  readonly caution: string;
  readonly assumptions: readonly string[];
}

export function planView(plan: Plan): PlanView {
  const tonight = plan.nights[0];
  const { nights: coming, after } = comingOf(plan);
  const time = timeOf(plan);
  return {
    tonight: tonight && tonight.blocks.length > 0 ? blocksTable(plan, tonight, time) : null,
    nothing: nothingText(plan),
    adds: tonight && tonight.lines.length > 0 ? addsTable(tonight) : null,
    coming: coming.length > 0 ? comingTable(coming, time) : null,
    left: plan.left.length > 0 ? leftTable(plan) : null,
    after,
    caution: CAUTION,
    assumptions: plan.assumptions,
  };
}

function blocksTable({ trains }: Plan, night: PlannedNight, time: TimeText): Table {
  return {
    caption:
      `${dateText(night.date)}, the ` +
      `plan${night.window ? `: dark from ${time(night.window.startMs)} to ${time(night.window.endMs)}` : ''}, ` +
      `Moon ${percent(night.moonIllumination)}`,
    name: 'plan-blocks',
    columns: [
      column('Time'),
      column('Target'),
      ...trains.map((train) => column(train)),
      column('Dither'),
      column('Sky'),
    ],
    rows: inOrder(night.blocks, night.free).map((one) => {
      const { span } = 'block' in one ? one.block : one.free;
      const when = words(spanOf({ span }, time), { header: true, lines: [duration(durationMs(span))] });
      return {
        cells:
          'block' in one
            ? [when, ...blockCells(one.block, night, time)]
            : [when, words(`free: ${freeClause(one.free)}`, { columns: trains.length + 3 })],
      };
    }),
  };
}

function blockCells(block: PlannedBlock, night: PlannedNight, time: TimeText): Cell[] {
  const [dither = UNKNOWN, ...ditherMore] = ditherOf(block);
  const [sky = '', ...skyMore] = skyOf(block, night, time);
  return [
    words(block.target, { lines: [block.isNewTarget ? 'slew, centre, focus, guide' : 'stay on it'] }),
    ...block.trains.map((train) => words(exposuresOf(train), { lines: notesOf(train, time), value: train.train })),
    words(dither, { lines: ditherMore, value: 'dither' }),
    words(sky, { lines: skyMore }),
  ];
}

/** Whose goal it is; empty if all goals are common ones, which need no column. */
function trainOf(
  { train }: { readonly train: string | null },
  all: readonly { readonly train: string | null }[],
): string {
  return all.every((one) => one.train === null) ? '' : (train ?? 'all together');
}

function addsTable({ lines }: PlannedNight): Table {
  const hours = (value: number): string => `${decimal(value, 1)} h`;
  return withoutEmptyColumns({
    caption: 'What the night adds if it is clear, and what the goals then still need',
    name: 'plan-adds',
    columns: [
      column('Target'),
      column('Filter'),
      column('Train'),
      column('adds', 'figures'),
      column('then still needs', 'figures'),
    ],
    rows: lines.map((line: PlannedLine) => ({
      cells: [
        words(line.target, { header: true }),
        words(line.filter ?? 'any filter'),
        words(trainOf(line, lines)),
        figures(hours(line.addsHours), line.addsHours),
        figures(stillNeeded(line.lacksHours), line.lacksHours),
      ],
    })),
  });
}

function leftTable({ left }: Plan): Table {
  return withoutEmptyColumns({
    caption: LEFT_CAPTION,
    name: 'plan-left',
    columns: [column('Target'), column('Filter'), column('Train'), column('still needs', 'figures'), column('Why')],
    rows: left.map(({ target, filter, train, lacksHours, why }) => ({
      cells: [
        words(target, { header: true }),
        words(filter ?? 'any filter'),
        words(trainOf({ train }, left)),
        figures(stillNeeded(lacksHours), lacksHours),
        words(leftText(why)),
      ],
    })),
  });
}

function comingTable(nights: readonly PlannedNight[], time: TimeText): Table {
  return {
    caption: 'The nights after it, each planned as if all before it were clear',
    name: 'plan-coming',
    columns: [column('Evening'), column('Moon', 'figures'), column('What'), column('adds', 'figures')],
    rows: nights.map((night) => {
      const adds = night.lines.reduce((sum, line) => sum + line.addsHours, 0);
      const what = inOrder(night.blocks, night.free).map((one) =>
        'block' in one ? briefOf(one.block, time, '\u00a0') : `${spanOf(one.free, time)} ${freeText(one.free)}`,
      );
      return {
        cells: [
          words(dayText(night.date), { header: true }),
          figures(percent(night.moonIllumination)),
          words(what[0] ?? 'it does not get dark', { lines: what.slice(1) }),
          figures(adds > 0 ? `${decimal(adds, 1)} h` : UNKNOWN, adds),
        ],
      };
    }),
  };
}
