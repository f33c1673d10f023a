/** Drift, flexure and rotation, in figures. */
import {
  decimal,
  duration,
  type DriftStretch,
  type Flexure,
  type TrainPointing,
  UNKNOWN,
} from '../../../../model/index.js';
import type { ViewContext } from '../context.js';
import { column, figures, words, type Row, type Table } from '../table.js';

/** One subject whose drift is shown. */
interface Drifting {
  readonly target: string;
  readonly what: string;
  readonly sides: readonly DriftStretch[];
  readonly hours: readonly DriftStretch[];
  readonly subSeconds: number | null;
  readonly flexure: Flexure | null;
}

function driftings({ night }: ViewContext): readonly Drifting[] {
  const { pointings = [], pairs = [] } = night.stars ?? {};
  const own = pointings.flatMap(({ train, target, drift, rotation }): Drifting[] =>
    drift
      ? [
          {
            target,
            what: `${train} ${drift.by === 'between-dithers' ? 'between dithers' : 'through its dithers'}`,
            sides: drift.sides,
            hours: drift.hours,
            subSeconds: rotation?.subSeconds ?? null,
            flexure: null,
          },
        ]
      : [],
  );
  const against = pairs.flatMap(({ target, trains: [pilot, companion], flexure }): Drifting[] =>
    flexure
      ? [
          {
            target,
            what: `${companion} against ${pilot}`,
            sides: flexure.sides,
            hours: flexure.hours,
            subSeconds: flexure.subSeconds,
            flexure,
          },
        ]
      : [],
  );
  return [...against, ...own];
}

const COLUMNS = [
  column('Target'),
  column('What'),
  column('Side of the pier'),
  column('From', 'figures'),
  column('To', 'figures'),
  column('Frames', 'figures'),
  column('″ per hour', 'figures'),
  column('±', 'figures'),
  column('px per sub', 'figures'),
];

/** Drift by side of the pier, and the longest sub that flexure allows. */
export function driftTable(context: ViewContext): Table | null {
  const all = driftings(context).filter(({ sides }) => sides.length > 0);
  if (all.length === 0) return null;
  return {
    caption: 'Drift by side of the pier; one standard error; longest sub with a trail below half a pixel',
    name: 'drift',
    columns: [...COLUMNS, column('Longest sub', 'figures')],
    rows: all.flatMap((one) =>
      one.sides.map(
        (stretch, index): Row => ({
          cells: [...stretchCells(one, stretch, context), figures(index === 0 ? longest(one) : '')],
        }),
      ),
    ),
  };
}

/** The same hour by hour. */
export function hoursTable(context: ViewContext): Table | null {
  const all = driftings(context).filter(({ hours }) => hours.length > 1);
  if (all.length === 0) return null;
  return {
    caption: 'Drift hour by hour',
    name: 'drift-hours',
    columns: COLUMNS,
    rows: all.flatMap((one) => one.hours.map((stretch): Row => ({ cells: stretchCells(one, stretch, context) }))),
  };
}

function stretchCells({ target, what, sides, subSeconds }: Drifting, stretch: DriftStretch, { clock }: ViewContext) {
  return [
    words(target),
    words(what, { header: true }),
    words(sideName(stretch, sides)),
    figures(clock.time(stretch.startMs), stretch.startMs),
    figures(clock.time(stretch.endMs), stretch.endMs),
    figures(String(stretch.frames)),
    figures(decimal(stretch.arcsecPerHour, 2)),
    figures(decimal(stretch.uncertaintyArcsecPerHour, 2)),
    figures(subSeconds === null ? UNKNOWN : decimal((stretch.pxPerHour * subSeconds) / 3600, 2)),
  ];
}

/** Sides are only known from the flip between them. */
function sideName({ flipped }: DriftStretch, sides: readonly DriftStretch[]): string {
  if (sides.length < 2) return 'one side';
  const first = [...sides].sort((a, b) => a.startMs - b.startMs)[0];
  return flipped === first?.flipped ? 'before the flip' : 'after the flip';
}

/** Nobody exposes longer, and the limit for a tiny drift would be days. Seconds. */
const LONGEST_STATED_S = 7200;

function longest({ flexure }: Drifting): string {
  if (flexure === null) return '';
  const { longestSubSeconds, isMeasured } = flexure;
  if (longestSubSeconds === null) return 'no limit';
  if (longestSubSeconds > LONGEST_STATED_S) return `more than ${duration(LONGEST_STATED_S * 1000)}`;
  return `${isMeasured ? '' : 'at least '}${duration(longestSubSeconds * 1000)}`;
}

/** Rotation of the field, and what it implies for the polar axis. */
export function rotationTable({ night }: ViewContext): Table | null {
  const known = (night.stars?.pointings ?? []).filter(({ rotation }) => rotation !== null);
  if (known.length === 0) return null;
  return {
    caption:
      'Rotation of the field: its trail in the corner of a sub, and the smallest polar misalignment that ' +
      'explains it',
    name: 'rotation',
    columns: [
      column('Target'),
      column('Train'),
      column('Frames', 'figures'),
      column('° per hour', 'figures'),
      column('±', 'figures'),
      column('px in the corner', 'figures'),
      column('Polar axis off by', 'figures'),
    ],
    rows: known.map(rotationRow),
  };
}

function rotationRow({ target, train, rotation }: TrainPointing): Row {
  return {
    cells: [
      words(target),
      words(train, { header: true }),
      figures(rotation === null ? UNKNOWN : String(rotation.frames)),
      figures(decimal(rotation?.degPerHour, 4)),
      figures(decimal(rotation?.uncertaintyDegPerHour, 4)),
      figures(decimal(rotation?.cornerTrailPx, 2)),
      figures(polarText(rotation)),
    ],
  };
}

/** A rotation below twice its error only shows that the axis may be right. */
function polarText(rotation: TrainPointing['rotation']): string {
  const least = rotation?.polarErrorAtLeastArcmin ?? null;
  const error = rotation?.uncertaintyArcmin ?? null;
  if (least === null || error === null) return UNKNOWN;
  return least < 2 * error ? 'not measured' : `${decimal(least, 1)}′ or more`;
}
