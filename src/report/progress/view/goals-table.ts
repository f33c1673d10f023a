import {
  duration,
  mosaicBalance,
  percent,
  UNKNOWN,
  type ProgressLine,
  type TargetProgress,
  ownValue,
} from '../../../model/index.js';
import { solidArea } from '../../design/area.js';
import { column, figures, words, type Row, type Table } from '../../html/view/table.js';
import { filterLabel, nameOf, type ProgressContext } from '../context.js';

const optional = (ms: number | null) => (ms === null ? figures(UNKNOWN, null) : figures(duration(ms), ms));

function lineRow(context: ProgressContext, line: ProgressLine): Row {
  const { trains } = context.progress;
  return {
    cells: [
      words(filterLabel(context, line.filter), {
        header: true,
        ...(line.filter === null ? {} : { swatch: solidArea(context.palette.filter(line.filter).colour) }),
      }),
      words(line.train ?? 'all'),
      optional(line.goalMs),
      figures(duration(line.ms.kept), line.ms.kept),
      optional(line.remainingMs),
      figures(duration(line.ms.doubtful), line.ms.doubtful),
      figures(duration(line.ms.lost), line.ms.lost),
      figures(String(line.nights), line.nights),
      ...(trains.length < 2
        ? []
        : trains.map((train) =>
            figures(line.ms.kept === 0 ? UNKNOWN : percent((ownValue(line.keptByTrainMs, train) ?? 0) / line.ms.kept)),
          )),
    ],
  };
}

function columns({ progress: { trains } }: ProgressContext) {
  return [
    column('Filter'),
    column('Train'),
    column('goal', 'figures'),
    column('kept', 'figures'),
    column('still needed', 'figures'),
    column('doubtful', 'figures'),
    column('lost', 'figures'),
    column('nights', 'figures'),
    ...(trains.length < 2 ? [] : trains.map((train) => column(train, 'figures'))),
  ];
}

function groups({ progress: { trains } }: ProgressContext) {
  return trains.length < 2
    ? undefined
    : [
        { label: '', span: 8 },
        { label: 'kept by', span: trains.length },
      ];
}

/** Goals and their progress, target by target. */
export function goalsTable(context: ProgressContext): Table {
  return {
    caption: 'Goals, and what was kept towards them',
    name: 'goals',
    groups: groups(context),
    columns: columns(context),
    rows: [],
    bodies: context.progress.targets.map((target) => ({
      head: nameOf(target),
      rows: target.lines.map((line) => lineRow(context, line)),
    })),
  };
}

/** The same for one target. */
export function targetTable(context: ProgressContext, target: TargetProgress): Table {
  return {
    caption: `${nameOf(target)}: goals, and what was kept towards them`,
    name: 'goals',
    groups: groups(context),
    columns: columns(context),
    rows: target.lines.map((line) => lineRow(context, line)),
  };
}

/** How evenly the panels of each mosaic stand. */
export function mosaicTexts(context: ProgressContext): string[] {
  const shares = context.progress.targets.flatMap(({ name, nights }) =>
    nights.flatMap(({ keptByFilterMs }) =>
      Object.entries(keptByFilterMs).map(([filter, keptMs]) => ({
        target: name,
        filter: filterLabel(context, filter),
        keptMs,
      })),
    ),
  );
  return mosaicBalance(shares);
}
