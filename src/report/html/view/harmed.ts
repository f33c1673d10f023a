import {
  counted,
  decimal,
  durationMs,
  formatSource,
  listed,
  type Cause,
  type JudgedFrame,
} from '../../../model/index.js';
import { frameName } from '../../figures/frame-name.js';
import { harmedRuns } from '../../figures/harmed-runs.js';
import { MOST_LISTED, type FrameRun } from '../../figures/listed.js';
import type { ViewContext } from './context.js';
import { causeLabel } from '../../figures/cause-label.js';
import { sentence } from '../../text/sentence.js';
import { exposureText, verdictCell } from './frames.js';
import { column, figures, words, type Cell, type Row, type Table } from './table.js';

type Statement = NonNullable<Cell['statements']>[number];

function statementOf(cause: Cause, frame: JudgedFrame, { clock }: ViewContext): Statement {
  const by = cause.causedBy === undefined ? '' : ` by ${cause.causedBy}`;
  const where = [cause.certainty, ...cause.sources.map(formatSource)].join(', ');
  return {
    head:
      `${causeLabel(cause.kind, frame)}${by}, ${clock.seconds(cause.span.startMs)} to ` +
      `${clock.seconds(cause.span.endMs)}`,
    details: [sentence(cause.evidence), where],
  };
}

/** What a run's frames share, with the evidence of its first and last frame. */
function runStatements({ first, last }: FrameRun, { clock }: ViewContext): Statement[] {
  return first.causes.flatMap((from): Statement[] => {
    const to = last.causes.find(({ kind }) => kind === from.kind);
    if (to === undefined) return [];
    const sources = [from.sources[0], to.sources.at(-1)].flatMap((one) => (one === undefined ? [] : [one]));
    return [
      {
        head: `${causeLabel(from.kind, first)}, ${clock.seconds(from.span.startMs)} to ${clock.seconds(to.span.endMs)}`,
        details: [
          `First frame: ${from.evidence}; last frame: ${to.evidence}.`,
          [from.certainty, sources.map(formatSource).join(' to ')].filter((text) => text !== '').join(', '),
        ],
      },
    ];
  });
}

/** `Ha and OIII 180 s`: every filter of the run, and its lengths. */
function exposuresText({ frames, first }: FrameRun, { palette }: ViewContext): string {
  const filters = [...new Set(frames.map(({ filter }) => palette.filter(filter).label))];
  const lengths = [...new Set(frames.map(({ exposure }) => durationMs(exposure)))];
  if (lengths.length > 1) return listed(filters);
  const ms = lengths[0] ?? durationMs(first.exposure);
  return `${listed(filters)} ${decimal(ms / 1000, ms % 1000 === 0 ? 0 : 1)}\u00a0s`;
}

/** Frames of several filters have no filter colour. */
function colourOf({ first, frames }: FrameRun, { palette }: ViewContext): string {
  return frames.every(({ filter }) => filter === first.filter) ? palette.filter(first.filter).colour : 'ink';
}

function nameCell(run: FrameRun): Cell {
  const { first, last, frames } = run;
  const name = frameName(first);
  return words(frames.length === 1 ? name : `${counted(frames.length, 'frame')}: ${name} to ${frameName(last)}`, {
    anchor: `frame-${first.id}`,
    header: true,
  });
}

function causesCell(run: FrameRun, context: ViewContext): Cell {
  const { causes } = run.first;
  return words(causes.length === 0 ? 'no cause is recorded' : '', {
    statements:
      run.frames.length === 1
        ? causes.map((cause) => statementOf(cause, run.first, context))
        : runStatements(run, context),
  });
}

function rowOf(run: FrameRun, context: ViewContext): Row {
  const { first, frames } = run;
  return {
    id: `cause-${first.id}`,
    cells: [
      verdictCell(first, context, colourOf(run, context)),
      words(first.train),
      nameCell(run),
      figures(context.clock.seconds(first.exposure.startMs), first.exposure.startMs),
      words(frames.length === 1 ? `${exposureText(first, context.palette)}\u00a0s` : exposuresText(run, context)),
      causesCell(run, context),
    ],
  };
}

const framesIn = (runs: readonly FrameRun[]): JudgedFrame[] => runs.flatMap(({ frames }) => frames);

/** The table of the frames that are not kept; complete in print. */
export interface Harmed {
  readonly table: Table;
  /** Number of frames in each row. */
  readonly framesOfRows: readonly number[];
}

/** Frames that are not simply kept, with what happened and where that is recorded. */
export function harmedTable(context: ViewContext): Harmed | null {
  const runs = harmedRuns(context.night.accounts.lights);
  if (runs.length === 0) return null;
  const shown = runs.slice(0, MOST_LISTED);
  const cut = framesIn(runs.slice(MOST_LISTED)).length;
  const more = cut === 0 ? '' : `; the first ${framesIn(shown).length}, ${counted(cut, 'more', 'more')} in frames.csv`;
  return {
    framesOfRows: shown.map(({ frames }) => frames.length),
    table: {
      caption: `Lost and doubtful frames with their causes${more}`,
      name: 'harmed',
      sortable: true,
      columns: [
        column('Verdict'),
        column('Train'),
        column('Frame'),
        column('Begin', 'figures'),
        column('Exposure'),
        column('Cause and evidence'),
      ],
      rows: shown.map((run) => rowOf(run, context)),
    },
  };
}

/** Number of unfolded rows in the table of harmed frames. */
const UNFOLDED = 15;

/** The table of harmed frames on screen: for a night with many the later ones are folded. */
export interface HarmedFold {
  readonly first: Table;
  readonly rest: Table | null;
  /** Label of the fold. */
  readonly title: string;
}

/** Splits a long table of harmed frames. */
export function harmedFold({ table, framesOfRows }: Harmed): HarmedFold {
  if (table.rows.length <= UNFOLDED) return { first: table, rest: null, title: '' };
  const left = framesOfRows.slice(UNFOLDED).reduce((sum, count) => sum + count, 0);
  return {
    first: { ...table, rows: table.rows.slice(0, UNFOLDED) },
    rest: { ...table, caption: 'Later frames', rows: table.rows.slice(UNFOLDED) },
    title: counted(left, 'more frame'),
  };
}

/** Why there is no table of harmed frames: what was checked, and what could not be. */
export function unharmedText({ night }: ViewContext): string {
  if (night.accounts.lights.length === 0) return 'No light was taken.';
  if (night.timeline.headersOnly) return 'No frame rejected; interruptions not checked (no log).';
  if (night.gathered.guiding !== null) return 'No frame rejected.';
  return night.timeline.activities.some(({ kind }) => kind.startsWith('guiding-'))
    ? 'No frame rejected; quality of guiding not checked (no guiding samples).'
    : 'No frame rejected; guiding not checked (no log).';
}
