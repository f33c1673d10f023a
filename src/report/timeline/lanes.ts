import {
  ACCOUNT_TABLE,
  decimal,
  duration,
  durationMs,
  VERDICT_KINDS,
  VERDICTS,
  type Cause,
  type Interval,
  type JudgedFrame,
  type LedgerSegment,
  type Train,
  type Verdict,
  lightsOf,
} from '../../model/index.js';
import { accountArea, verdictArea, type AreaStyle } from '../design/area.js';
import { cssColour } from '../design/tokens.js';
import { causeLabel } from '../figures/cause-label.js';
import { frameName } from '../figures/frame-name.js';
import type { Drawing } from './drawing.js';
import { runLabels, targetLabels, type LaneLabel } from './lane-labels.js';
import { fitClass, textWidthPx } from './scale.js';

/** A block on a lane, positioned in per cent and pixels. */
export interface Block {
  readonly x: string;
  readonly width: string;
  readonly xEnd: string;
  readonly title: string;
}

/** A block with its own style. */
export interface StyledBlock extends Block {
  readonly style: AreaStyle;
}

export interface FrameBlock extends StyledBlock {
  readonly verdict: Verdict;
  readonly letter: {
    readonly text: string;
    readonly x: string;
    readonly y: number;
    readonly fit: string;
    readonly fill: string;
  } | null;
}

/** A row of blocks, px from the picture's top. */
export interface LaneRow {
  readonly y: number;
  readonly height: number;
  readonly half: number;
  readonly middle: number;
  readonly end: number;
}

/** One train's lane: its exposures, and the accounts of its closed shutter on the side of the mount. */
export interface Lane {
  readonly train: string;
  readonly below: boolean;
  readonly name: string;
  readonly nameY: number;
  /** The row of the lane's names and filters. */
  readonly nameTop: number;
  readonly nameHeight: number;
  readonly runY: number;
  readonly frameRow: LaneRow;
  readonly accountRow: LaneRow;
  readonly targets: readonly LaneLabel[];
  readonly runs: readonly LaneLabel[];
  readonly frames: readonly FrameBlock[];
  readonly accounts: readonly StyledBlock[];
}

export interface LaneHeights {
  readonly name: number;
  readonly runs: number;
  readonly frames: number;
  readonly accounts: number;
  /** Horizontal padding required to draw a letter inside an exposure. */
  readonly letterAir: number;
}

/** Size of the letters inside exposures, px. */
const LETTER_PX = 12;
/** From a letter's middle to its base line, as a fraction of its size. */
const LETTER_DROP = 0.36;

/** Height of a whole lane, px. */
export function laneHeight({ name, runs, frames, accounts }: LaneHeights): number {
  return name + runs + frames + accounts;
}

function rowAt(y: number, height: number): LaneRow {
  return { y, height, half: height / 2, middle: y + height / 2, end: y + height };
}

function placed({ scale }: Drawing, { startMs, endMs }: Interval): Omit<Block, 'title'> {
  return { x: scale.x(startMs), width: scale.width(startMs, endMs), xEnd: scale.x(endMs) };
}

function causeText(cause: Cause, frame: JudgedFrame): string {
  // If short, it is the file, after an exposure of any length.
  if (cause.kind === 'cut-short' && frame.header?.isCutOff === true) return 'file cut off';
  return (
    `${causeLabel(cause.kind, frame)} ${cause.kind === 'cut-short' ? 'after' : 'for'} ` +
    `${duration(cause.overlapMs)}${cause.causedBy === undefined ? '' : `, by ${cause.causedBy}`}`
  );
}

/** One line about a frame: the tooltip of its block. */
function frameTitle(frame: JudgedFrame, { clock, palette }: Drawing): string {
  const { exposure, sky, guiding } = frame;
  const parts = [
    `${frameName(frame)}: ${frame.verdict}`,
    frame.target === undefined || frame.target === '' ? 'no target named' : frame.target,
    `${palette.filter(frame.filter).label} ${decimal(durationMs(exposure) / 1000, 0)} s`,
    `${clock.seconds(exposure.startMs)} to ${clock.seconds(exposure.endMs)}`,
    ...(sky === null ? [] : [`altitude ${decimal(sky.altitudeDeg, 0)}°`]),
    ...(guiding === null ? [] : [`guiding ${decimal(guiding.totalRmsArcsec, 2)}″`]),
    ...frame.causes.map((cause) => causeText(cause, frame)),
  ];
  return parts.join(' · ');
}

/** The filter's letter inside an exposure; a lost one has its cross there. */
function letterOf(frame: JudgedFrame, row: LaneRow, airPx: number, { scale, palette }: Drawing): FrameBlock['letter'] {
  if (frame.verdict === 'lost') return null;
  const { short, colour } = palette.filter(frame.filter);
  const text = `${short}${VERDICTS[frame.verdict].mark}`;
  const startMs = Math.max(frame.exposure.startMs, scale.span.startMs);
  const endMs = Math.min(frame.exposure.endMs, scale.span.endMs);
  const fit = fitClass(textWidthPx(text, LETTER_PX), scale.share(startMs, endMs), airPx);
  if (fit === null) return null;
  // The letters of doubtful frames are in the upper half, which is paper.
  const kept = frame.verdict === 'kept';
  const middle = kept ? row.middle : row.y + row.half / 2;
  return {
    text,
    fit,
    x: scale.x((startMs + endMs) / 2),
    y: middle + LETTER_PX * LETTER_DROP,
    fill: cssColour(kept ? `on-${colour}` : 'ink'),
  };
}

function frameBlock(frame: JudgedFrame, row: LaneRow, heights: LaneHeights, drawing: Drawing): FrameBlock {
  return {
    title: frameTitle(frame, drawing),
    verdict: frame.verdict,
    style: verdictArea(drawing.palette.filter(frame.filter).colour, frame.verdict),
    letter: letterOf(frame, row, heights.letterAir, drawing),
    ...placed(drawing, frame.exposure),
  };
}

function accountBlock(train: string, { account, span, label }: LedgerSegment, drawing: Drawing): StyledBlock {
  const what = `${ACCOUNT_TABLE[account].label}${label === undefined ? '' : ` (${label})`}`;
  return {
    style: accountArea(account),
    title: `${train}: ${what}, ${duration(durationMs(span))} from ${drawing.clock.seconds(span.startMs)}`,
    ...placed(drawing, span),
  };
}

/** Number of distinguishable blocks in a row; with more, neighbours of one kind are merged. */
const MOST_BLOCKS = 700;
/** Fraction of the axis below which a gap or a block is invisible. */
const UNSEEN = 1 / 1500;

/** Frames too close to be distinguished, with the same filter and verdict. */
function crowd(frames: readonly JudgedFrame[], { scale }: Drawing): JudgedFrame[][] {
  const runs: JudgedFrame[][] = [];
  for (const frame of frames) {
    const run = runs[runs.length - 1];
    const last = run?.[run.length - 1];
    const joins =
      last !== undefined &&
      last.filter === frame.filter &&
      last.verdict === frame.verdict &&
      scale.share(last.exposure.endMs, frame.exposure.startMs) < UNSEEN;
    if (run && joins) run.push(frame);
    else runs.push([frame]);
  }
  return runs;
}

function crowdBlock(run: readonly JudgedFrame[], row: LaneRow, heights: LaneHeights, drawing: Drawing): FrameBlock {
  const [first, last] = [run[0], run[run.length - 1]];
  if (!first || !last) throw new RangeError('a run of frames is empty');
  if (run.length === 1) return frameBlock(first, row, heights, drawing);
  const exposure = { startMs: first.exposure.startMs, endMs: last.exposure.endMs };
  const { clock, palette } = drawing;
  return {
    ...frameBlock({ ...first, exposure }, row, heights, drawing),
    title:
      `${run.length} frames ${palette.filter(first.filter).label}: ${first.verdict} · ` +
      `${clock.seconds(exposure.startMs)} to ${clock.seconds(exposure.endMs)}`,
  };
}

/** Visible segments, if there are more than a row can show. */
function visible(segments: readonly LedgerSegment[], scale: Drawing['scale']): readonly LedgerSegment[] {
  if (segments.length <= MOST_BLOCKS) return segments;
  return segments.filter(({ span }) => scale.share(span.startMs, span.endMs) >= UNSEEN / 2);
}

const OPEN = new Set<string>(VERDICT_KINDS);

/**
 * Builds a train's lane: name and targets, filters by run, exposures, and below (or above) them the accounts of the
 * closed shutter. Lanes below the mount are mirrored, so that accounts and ties meet in the middle.
 *
 * @param top the lane's upper edge, px
 */
export function buildLane(train: Train, top: number, below: boolean, heights: LaneHeights, drawing: Drawing): Lane {
  const { night, scale } = drawing;
  const frames = lightsOf(night, train.id).filter((frame) => scale.shows(frame.exposure));
  const segments = night.accounts.ledgers.find((ledger) => ledger.train === train.id)?.segments ?? [];
  const name = `${train.id}, ${train.role}`;
  const frameRow = rowAt(below ? top + heights.accounts : top + heights.name + heights.runs, heights.frames);
  const accountRow = rowAt(below ? top : frameRow.end, heights.accounts);
  const runsTop = below ? frameRow.end : top + heights.name;
  const nameTop = below ? runsTop + heights.runs : top;
  return {
    train: train.id,
    below,
    name,
    frameRow,
    accountRow,
    // Directly below frames a name keeps the same distance as above.
    nameY: nameTop + heights.name - (below && heights.runs === 0 ? 2 : 5),
    nameTop: Math.min(nameTop, runsTop),
    nameHeight: heights.name + heights.runs,
    runY: runsTop + heights.runs - 4,
    targets: targetLabels(frames, name, drawing),
    runs: heights.runs === 0 ? [] : runLabels(frames, drawing),
    frames:
      frames.length <= MOST_BLOCKS
        ? frames.map((frame) => frameBlock(frame, frameRow, heights, drawing))
        : crowd(frames, drawing).map((run) => crowdBlock(run, frameRow, heights, drawing)),
    accounts: visible(
      segments.filter(({ account, span }) => !OPEN.has(account) && scale.shows(span)),
      scale,
    ).map((segment) => accountBlock(train.id, segment, drawing)),
  };
}
