import {
  counted,
  decimal,
  duration,
  listed,
  percent,
  UNKNOWN,
  type NightSummary,
  type NightTrend,
  type TargetNight,
  ownValue,
} from '../../../model/index.js';
import { column, figures, firstOnPaper, words, type Cell, type Row, type Table } from '../../html/view/table.js';
import { nameOf, type ProgressContext } from '../context.js';
import { dateText } from '../dates.js';

/** Number of nights printed: more than a season's; and for one target, more than most take. */
const NIGHTS_ON_PAPER = 120;
const TARGET_NIGHTS_ON_PAPER = 40;

/** Rows, latest night first, of which the first are printed. */
function latestOnPaper(rows: readonly Row[], most: number): Pick<Table, 'rows' | 'paperNote'> {
  return firstOnPaper(
    rows,
    most,
    (others) => `${counted(others, 'earlier night')} ${others === 1 ? 'is' : 'are'} in progress.html.`,
  );
}

function dateCell(
  { linkTo }: ProgressContext,
  { date, report }: Pick<TargetNight, 'date' | 'report'>,
  lines: readonly string[] = [],
): Cell {
  const href = linkTo(report);
  return words(dateText(date), {
    header: true,
    value: date.replaceAll('-', ''),
    ...(href === null ? {} : { href }),
    ...(lines.length > 0 ? { lines } : {}),
  });
}

/** Every night of the archive, latest first. */
export function nightsTable(context: ProgressContext): Table {
  const { progress, share } = context;
  const sites = new Set(progress.nights.flatMap((night) => night.site?.name ?? []));
  const row = (night: NightSummary, trend: NightTrend | undefined): Row => {
    const notes = [
      ...(night.headersOnly ? ['headers only'] : []),
      ...(!share && sites.size > 1 && night.site?.name ? [night.site.name] : []),
    ];
    return {
      cells: [
        dateCell(context, night, notes),
        words(listed([...new Set(night.totals.map((t) => nameOf(t.target)))])),
        figures(trend?.darkMs == null ? UNKNOWN : duration(trend.darkMs), trend?.darkMs),
        figures(trend === undefined ? UNKNOWN : duration(trend.usedMs), trend?.usedMs),
        figures(trend === undefined ? UNKNOWN : duration(trend.keptMs), trend?.keptMs),
        figures(percent(trend?.efficiency), trend?.efficiency),
        figures(trend?.twinGain == null ? UNKNOWN : decimal(trend.twinGain, 2), trend?.twinGain),
      ],
    };
  };
  return {
    caption: 'Nights of the archive, the latest first',
    name: 'nights',
    sortable: true,
    columns: [
      column('Evening'),
      column('Targets'),
      column('dark', 'figures'),
      column('used', 'figures'),
      column('kept', 'figures'),
      column('efficiency', 'figures'),
      column('twin gain', 'figures'),
    ],
    ...latestOnPaper(progress.nights.map((night, i) => row(night, progress.trends[i])).reverse(), NIGHTS_ON_PAPER),
  };
}

/** The nights of one target, latest first. */
export function targetNightsTable(context: ProgressContext, name: string, nights: readonly TargetNight[]): Table {
  const {
    progress: { trains },
    palette,
  } = context;
  return {
    caption: `${name}: its nights, the latest first`,
    name: 'target-nights',
    sortable: true,
    columns: [
      column('Evening'),
      column('Filters'),
      column('taken', 'figures'),
      column('kept', 'figures'),
      column('doubtful', 'figures'),
      column('lost', 'figures'),
      ...(trains.length < 2 ? [] : trains.map((train) => column(`${train}, kept`, 'figures'))),
    ],
    ...latestOnPaper(
      [...nights].reverse().map(
        (night): Row => ({
          cells: [
            dateCell(context, night),
            words(
              Object.keys(night.keptByFilterMs)
                .map((filter) => palette.filter(filter).label)
                .join(', '),
            ),
            figures(duration(night.ms.taken), night.ms.taken),
            figures(duration(night.ms.kept), night.ms.kept),
            figures(duration(night.ms.doubtful), night.ms.doubtful),
            figures(duration(night.ms.lost), night.ms.lost),
            ...(trains.length < 2
              ? []
              : trains.map((train) =>
                  figures(
                    duration(ownValue(night.keptByTrainMs, train) ?? 0),
                    ownValue(night.keptByTrainMs, train) ?? 0,
                  ),
                )),
          ],
        }),
      ),
      TARGET_NIGHTS_ON_PAPER,
    ),
  };
}
