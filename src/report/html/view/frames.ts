import {
  counted,
  decimal,
  durationMs,
  knownFwhmArcsec,
  groupBy,
  halfFluxNote,
  VERDICTS,
  ownValue,
  type FrameStars,
  type JudgedFrame,
  lightsOf,
} from '../../../model/index.js';
import { verdictArea } from '../../design/area.js';
import type { Palette } from '../../design/filters.js';
import { frameName } from '../../figures/frame-name.js';
import { harmedRuns, runOfEach } from '../../figures/harmed-runs.js';
import { listing, listsAll, runsOf, runText, type FrameRun } from '../../figures/listed.js';
import type { ViewContext } from './context.js';
import {
  column,
  figures,
  screenOnly,
  withoutEmptyColumns,
  words,
  type Cell,
  type Column,
  type Row,
  type Table,
} from './table.js';

/** Filter and seconds: `Ha 300`. */
export function exposureText(frame: JudgedFrame, palette: Palette): string {
  const ms = durationMs(frame.exposure);
  return `${palette.filter(frame.filter).label} ${decimal(ms / 1000, ms % 1000 === 0 ? 0 : 1)}`;
}

export function verdictCell(
  frame: JudgedFrame,
  { palette }: ViewContext,
  colour = palette.filter(frame.filter).colour,
): Cell {
  const { label } = VERDICTS[frame.verdict];
  return words(label, {
    swatch: verdictArea(colour, frame.verdict),
    className: `v-${frame.verdict}`,
  });
}

/** Every light of one train, in chronological order. */
export interface TrainFrames {
  readonly train: string;
  readonly table: Table;
}

function frameRow(frame: JudgedFrame, runOf: ReadonlyMap<string, FrameRun>, context: ViewContext): Row {
  const { clock, utc, palette, showsUtc } = context;
  const { sky, guiding, smear, header, exposure } = frame;
  const train = context.night.gathered.trains.find((t) => t.id === frame.train);
  const stars = ownValue(context.night.stars?.frames ?? {}, frame.id);
  const fwhm = knownFwhmArcsec(stars, header, train);
  return {
    id: `frame-${frame.id}`,
    cells: [
      frame.verdict === 'kept' ? words(VERDICTS.kept.label, { quiet: true }) : verdictCell(frame, context),
      words(
        frameName(frame),
        frame.verdict === 'kept' ? {} : { anchor: `cause-${runOf.get(frame.id)?.first.id ?? frame.id}` },
      ),
      figures(clock.seconds(exposure.startMs), exposure.startMs),
      ...(showsUtc ? [screenOnly(figures(utc.seconds(exposure.startMs), exposure.startMs))] : []),
      words(exposureText(frame, palette)),
      figures(decimal(sky?.altitudeDeg, 1), sky?.altitudeDeg),
      screenOnly(figures(decimal(sky?.airmass, 2), sky?.airmass)),
      figures(decimal(sky?.moonSeparationDeg, 1), sky?.moonSeparationDeg),
      screenOnly(figures(decimal(sky?.moonAltitudeDeg, 1), sky?.moonAltitudeDeg)),
      figures(decimal(guiding?.totalRmsArcsec, 2), guiding?.totalRmsArcsec),
      screenOnly(figures(decimal(smear?.trailPixels, 1), smear?.trailPixels)),
      figures(decimal(fwhm, 2), fwhm),
      ...(context.night.stars === null ? [] : measuredCells(stars)),
    ],
  };
}

/** What only pixels say; in the order of {@link MEASURED_COLUMNS}. */
function measuredCells(stars: FrameStars | undefined): Cell[] {
  return [
    figures(decimal(stars?.elongation ?? undefined, 2), stars?.elongation ?? undefined),
    figures(decimal(stars?.flux ?? undefined, 2), stars?.flux ?? undefined),
    screenOnly(figures(decimal(stars?.background, 0), stars?.background)),
  ];
}

const MEASURED_COLUMNS: readonly Column[] = [
  column('Elongation', 'figures'),
  column('Star light', 'figures'),
  column('Background ADU', 'figures', 'screen'),
];

/** A run of frames in one row: how many, from when, and the lowest and highest altitude. */
function runRow(run: FrameRun, context: ViewContext): Row {
  const { clock, utc, palette, showsUtc } = context;
  const { first, last, frames } = run;
  const altitudes = frames.flatMap(({ sky }) => (sky === null ? [] : [sky.altitudeDeg]));
  const [low, high] = altitudes.reduce(([a, b], one) => [Math.min(a, one), Math.max(b, one)], [90, -90]);
  const blank = figures('');
  return {
    cells: [
      first.verdict === 'kept' ? words(VERDICTS.kept.label, { quiet: true }) : verdictCell(first, context),
      words(`${runText(run)}, the last at ${clock.seconds(last.exposure.startMs)}`),
      figures(clock.seconds(first.exposure.startMs), first.exposure.startMs),
      ...(showsUtc ? [screenOnly(figures(utc.seconds(first.exposure.startMs), first.exposure.startMs))] : []),
      words(exposureText(first, palette)),
      altitudes.length === 0 ? blank : figures(`${decimal(low, 0)} to ${decimal(high, 0)}`, low),
      screenOnly(blank),
      blank,
      screenOnly(blank),
      blank,
      screenOnly(blank),
      blank,
      ...(context.night.stars === null ? [] : [blank, blank, screenOnly(blank)]),
    ],
  };
}

/** Every light of the night, one table per train; beyond {@link MOST_LISTED} kept ones are grouped in runs. */
export function framesTables(context: ViewContext): TrainFrames[] {
  const isListed = listing(context.night);
  const runOf = runOfEach(harmedRuns(context.night.accounts.lights));
  const all = listsAll(context.night);
  const tables = context.night.gathered.trains.flatMap(({ id }): TrainFrames[] => {
    const frames = lightsOf(context.night, id);
    if (frames.length === 0) return [];
    const unmeasured = frames.filter(({ id }) => ownValue(context.night.stars?.frames ?? {}, id)?.fwhm == null);
    const note = halfFluxNote(unmeasured);
    return [
      {
        train: id,
        table: withoutEmptyColumns({
          caption:
            `${id}: ` +
            `${counted(frames.length, 'light')}${all ? '' : '; frames that are kept in runs, every one in frames.csv'}`,
          name: 'frames',
          sortable: true,
          columns: [
            column('Verdict'),
            column('Frame'),
            column('Begin', 'figures'),
            ...(context.showsUtc ? [column('UTC', 'figures', 'screen')] : []),
            column('Filter, s'),
            column('Altitude °', 'figures'),
            column('Airmass', 'figures', 'screen'),
            column('Moon distance °', 'figures'),
            column('Moon altitude °', 'figures', 'screen'),
            column('Guiding ″', 'figures'),
            column('Trail px', 'figures', 'screen'),
            column('FWHM ″', 'figures'),
            ...(context.night.stars === null ? [] : MEASURED_COLUMNS),
          ],
          rows: [],
          ...(note === '' ? {} : { note: `FWHM by the headers: ${note}.` }),
          bodies: [...groupBy(frames, (frame) => frame.target ?? '')].map(([target, list]) => ({
            head: target === '' ? 'no target named' : target,
            rows: runsOf(list, isListed).map((run) =>
              isListed(run.first) ? frameRow(run.first, runOf, context) : runRow(run, context),
            ),
          })),
        }),
      },
    ];
  });
  // A note shared by several tables is printed once, below the last.
  return tables.map(({ train, table: { note, ...table } }, i) =>
    note === undefined || tables.slice(i + 1).some((later) => later.table.note === note)
      ? { train, table }
      : { train, table: { ...table, note } },
  );
}
