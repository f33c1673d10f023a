import {
  decimal,
  durationMs,
  fwhmPixels,
  listed,
  median,
  ownValue,
  UNKNOWN,
  type ActivityOf,
  type Night,
} from '../../../model/index.js';
import { refocuses } from '../../charts/refocuses.js';
import type { ViewContext } from './context.js';
import { starTable } from './star-table.js';
import { zoneMaps, type ZoneMap } from './star-zones.js';
import { column, figures, words, type Row, type Table } from './table.js';

/** Number of frames on either side of a refocus whose median gives its effect. */
const NEAR_FRAMES = 3;

export interface StarsView {
  /** Whether any star was measured. */
  readonly measured: boolean;
  /** What was measured, or why nothing was. */
  readonly note: string;
  /** `null` if no star was measured. */
  readonly figures: Table | null;
  /** By train, if frames were read in full. */
  readonly zones: readonly ZoneMap[];
  readonly refocuses: Table | null;
}

/** The pixel measurements, and the effect of each refocus. */
export function starsView(context: ViewContext): StarsView {
  const { night } = context;
  const measured = Object.values(night.stars?.frames ?? {}).length;
  return {
    measured: measured > 0,
    note: noteOf(night, measured),
    figures: starTable(context),
    zones: zoneMaps(night),
    refocuses: refocusTable(context),
  };
}

function noteOf({ stars, accounts }: Night, measured: number): string {
  if (stars === null || measured === 0) {
    const isInHeaders = accounts.lights.some(({ header }) => header?.starSize !== undefined);
    return (
      (stars === null ? 'No pixels were read.' : 'The frames hold no stars to measure.') +
      (isInHeaders ? ' Sizes are taken from their headers. Dashed lines: refocuses in their train’s colour.' : '')
    );
  }
  const how = Object.values(stars.frames).some(({ by }) => by === 'full')
    ? 'over the full frames'
    : 'in strips across each frame';
  const rest = accounts.lights.length - measured;
  const left = rest === 0 ? '' : ` ${rest} ${rest === 1 ? 'light was' : 'lights were'} not measured.`;
  return (
    `Measured in the pixels of ${measured} lights, ${how}.${left} Dashed lines: refocuses in their train’s ` +
    'colour. Ticks at the bottom: dithers. Shades: guiding paused or lost. Bar along the top: the Moon is up.'
  );
}

function refocusTable(context: ViewContext): Table | null {
  const runs = refocuses(context.night);
  if (runs.length === 0) return null;
  return {
    caption: 'Refocuses; star sizes before and after in px',
    name: 'refocuses',
    columns: [
      column('Time', 'figures'),
      column('Train'),
      column('Reason'),
      column('Seconds', 'figures'),
      column('Logged', 'figures'),
      column('FWHM in the frames', 'figures'),
      column('Position', 'figures'),
      column('°C', 'figures'),
    ],
    rows: runs.map((run) => refocusRow(run, context)),
  };
}

function refocusRow(run: ActivityOf<'focus'>, { night, clock }: ViewContext): Row {
  const { span, train, why, facts } = run;
  return {
    cells: [
      figures(clock.seconds(span.startMs), span.startMs, { header: true }),
      words(train ?? UNKNOWN),
      words(facts?.ok === false ? listed([why ?? 'no reason logged', 'failed']) : (why ?? UNKNOWN)),
      figures(decimal(durationMs(span) / 1000, 0), durationMs(span)),
      figures(change(facts?.sizeBefore, facts?.sizeAfter)),
      figures(change(widthBeside(run, night, 'before'), widthBeside(run, night, 'after'))),
      figures(decimal(facts?.position, 0), facts?.position),
      figures(decimal(facts?.temperature, 1), facts?.temperature),
    ],
  };
}

/** `2.41 to 2.10`. */
function change(before: number | undefined, after: number | undefined): string {
  return before === undefined && after === undefined ? UNKNOWN : `${decimal(before, 2)} to ${decimal(after, 2)}`;
}

/** The width in the train's frames next to a refocus, from the pixels, else from the headers; px. */
function widthBeside({ span, train }: ActivityOf<'focus'>, night: Night, side: 'before' | 'after'): number | undefined {
  const own = night.accounts.lights.filter(
    ({ train: of, exposure }) =>
      of === train && (side === 'before' ? exposure.endMs <= span.startMs : exposure.startMs >= span.endMs),
  );
  const near = side === 'before' ? own.slice(-NEAR_FRAMES) : own.slice(0, NEAR_FRAMES);
  const widths = near.flatMap(
    ({ id, header }) => ownValue(night.stars?.frames ?? {}, id)?.fwhm ?? fwhmPixels(header) ?? [],
  );
  return widths.length === 0 ? undefined : median(widths);
}
