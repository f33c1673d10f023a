import {
  duration,
  durationRange,
  percent,
  UNKNOWN,
  VERDICT_KINDS,
  worthOfTotal,
  type Total,
  type TotalWorth,
} from '../../../model/index.js';
import { solidArea } from '../../design/area.js';
import { cutToWidth } from '../../timeline/scale.js';
import type { ViewContext } from './context.js';
import { column, figures, withoutEmptyColumns, words, type Cell, type Row, type Table } from './table.js';

/** A long name is given in full in the lists of frames; here it may take two lines of a phone's first column. */
const NAME_PX = 260;
const TEXT_PX = 13.5;

/** Effective times of different filters measure different things. */
const NEVER_ADDED = figures('');

const TALLIES = ['taken', ...VERDICT_KINDS] as const;

function sumOf(totals: readonly Total[]): Pick<Total, 'frames' | 'ms'> {
  const add = (key: (typeof TALLIES)[number], of: 'frames' | 'ms'): number =>
    totals.reduce((sum, total) => sum + total[of][key], 0);
  const tally = (of: 'frames' | 'ms') => ({
    taken: add('taken', of),
    kept: add('kept', of),
    doubtful: add('doubtful', of),
    lost: add('lost', of),
  });
  return { frames: tally('frames'), ms: tally('ms') };
}

function tallyCells(total: Pick<Total, 'frames' | 'ms'>) {
  return [
    ...TALLIES.flatMap((verdict) => [
      figures(String(total.frames[verdict]), total.frames[verdict]),
      figures(duration(total.ms[verdict]), total.ms[verdict]),
    ]),
    figures(
      total.ms.taken === 0 ? percent(null) : percent(total.ms.kept / total.ms.taken),
      total.ms.taken === 0 ? null : total.ms.kept / total.ms.taken,
    ),
  ];
}

function effectiveCell(worth: TotalWorth | undefined): Cell {
  return worth ? figures(durationRange(worth.lowMs, worth.highMs), worth.effectiveMs) : figures(UNKNOWN);
}

/** Frames and integration per target, filter and train, with the sums of each train. */
export function totalsTable({ night, palette }: ViewContext): Table {
  const rows = night.accounts.totals.map(
    (total): Row => ({
      cells: [
        words(total.target === '' ? 'no target named' : cutToWidth(total.target, NAME_PX, TEXT_PX), { header: true }),
        words(palette.filter(total.filter).label, { swatch: solidArea(palette.filter(total.filter).colour) }),
        words(total.train),
        ...tallyCells(total),
        effectiveCell(worthOfTotal(night, total)),
      ],
    }),
  );
  const sums =
    night.gathered.trains.length < 2
      ? []
      : night.gathered.trains.map(
          ({ id }): Row => ({
            kind: 'sum',
            cells: [
              words('all targets', { header: true }),
              words(''),
              words(id),
              ...tallyCells(sumOf(night.accounts.totals.filter((total) => total.train === id))),
              NEVER_ADDED,
            ],
          }),
        );
  return withoutEmptyColumns({
    caption: 'Frames and integration per target, filter and train',
    name: 'totals',
    sortable: true,
    groups: [{ label: '', span: 3 }, ...TALLIES.map((label) => ({ label, span: 2 })), { label: '', span: 2 }],
    columns: [
      column('Target'),
      column('Filter'),
      column('Train'),
      ...TALLIES.flatMap(() => [column('frames', 'figures'), column('time', 'figures')]),
      column('kept share', 'figures'),
      column('effective', 'figures'),
    ],
    rows,
    foot: [
      ...sums,
      {
        kind: 'total',
        cells: [
          words('the night', { header: true }),
          words(''),
          words(night.gathered.trains.length > 1 ? 'all' : (night.gathered.trains[0]?.id ?? '')),
          ...tallyCells(sumOf(night.accounts.totals)),
          NEVER_ADDED,
        ],
      },
    ],
  });
}
