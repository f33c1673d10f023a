import { durationMs, type Cause, type Interval, type JudgedFrame, type Night, type Train, type Verdict } from '../../model/index.js';
import { tokens } from '../design/tokens.js';
import { accountArea, verdictArea, type AreaStyle } from '../design/area.js';
import type { Palette } from '../design/filters.js';
import { frameName } from '../figures/frame-name.js';
import type { Clock } from '../text/clock.js';
import { duration } from '../text/duration.js';
import { decimal } from '../text/number.js';
import { cutToWidth, fitClass, textWidthPx, type TimeScale } from './scale.js';

/** A block on a lane, placed in per cent and pixels. */
export interface Block {
  readonly x: string;
  readonly width: string;
  readonly xEnd: string;
  readonly title: string;
}

/** A block that is laid down in a style of its own. */
export interface StyledBlock extends Block {
  readonly style: AreaStyle;
}

export interface FrameBlock extends StyledBlock {
  readonly verdict: Verdict;
  readonly letter: { readonly text: string; readonly x: string; readonly fit: string; readonly fill: string } | null;
}

export interface LaneLabel {
  readonly x: string;
  readonly text: string;
  readonly fit: string;
}

/** One train's lane. Heights in px from the picture's top. */
export interface Lane {
  readonly train: string;
  readonly below: boolean;
  readonly nameY: number;
  readonly runY: number;
  readonly frameY: number;
  readonly frameHeight: number;
  readonly frameEnd: number;
  readonly frameMiddle: number;
  readonly frameHalf: number;
  readonly letterY: number;
  readonly accountY: number;
  readonly accountHeight: number;
  readonly accountMiddle: number;
  readonly accountHalf: number;
  readonly accountEnd: number;
  readonly name: string;
  readonly targets: readonly LaneLabel[];
  readonly runs: readonly LaneLabel[];
  readonly frames: readonly FrameBlock[];
  readonly accounts: readonly StyledBlock[];
}

function causeText(cause: Cause): string {
  return `${tokens().causes[cause.kind]} for ${duration(cause.overlapMs)}${cause.causedBy === undefined ? '' : `, by ${cause.causedBy}`}`;
}

/** One line about a frame: what the reader sees when pointing at its block. */
export function frameTitle(frame: JudgedFrame, clock: Clock, palette: Palette): string {
  const { exposure } = frame;
  const parts = [
    `${frameName(frame)}: ${frame.verdict}`,
    frame.target === undefined || frame.target === '' ? 'no target named' : frame.target,
    `${palette.filter(frame.filter).label} ${decimal(durationMs(exposure) / 1000, 0)} s`,
    `${clock.seconds(exposure.startMs)} to ${clock.seconds(exposure.endMs)}`,
    ...(frame.sky === null ? [] : [`altitude ${decimal(frame.sky.altitudeDeg, 0)}°`]),
    ...(frame.guiding === null ? [] : [`guiding ${decimal(frame.guiding.totalRmsArcsec, 2)}″`]),
    ...frame.causes.map(causeText),
  ];
  return parts.join(' · ');
}

/** Size of the letters inside exposures, px. */
const LETTER_PX = 9.5;
/** Width of the picture on a common screen, px. */
const USUAL_WIDTH_PX = 1000;

function frameBlock(frame: JudgedFrame, letterAirPx: number, scale: TimeScale, clock: Clock, palette: Palette): FrameBlock {
  const { startMs, endMs } = frame.exposure;
  const style = palette.filter(frame.filter);
  const mark = tokens().verdicts[frame.verdict].mark;
  const text = mark === '' || frame.verdict === 'lost' ? style.short : `${style.short}${mark}`;
  const fit = frame.verdict === 'lost' ? null : fitClass(textWidthPx(text, LETTER_PX), scale.share(startMs, endMs), letterAirPx);
  return {
    x: scale.x(startMs), width: scale.width(startMs, endMs), xEnd: scale.x(endMs),
    title: frameTitle(frame, clock, palette), verdict: frame.verdict,
    style: verdictArea(style.colour, frame.verdict),
    letter: fit === null ? null : { text, x: scale.x((Math.max(startMs, scale.span.startMs) + Math.min(endMs, scale.span.endMs)) / 2), fit, fill: frame.verdict === 'kept' ? `var(--on-${style.colour})` : 'var(--ink)' },
  };
}

/** Stretches of frames that share what `key` names, in order. */
function runsOf(frames: readonly JudgedFrame[], key: (frame: JudgedFrame) => string): { readonly key: string; readonly span: Interval }[] {
  const runs: { key: string; span: Interval }[] = [];
  for (const frame of frames) {
    const last = runs[runs.length - 1];
    const name = key(frame);
    if (last?.key === name) last.span = { startMs: last.span.startMs, endMs: Math.max(last.span.endMs, frame.exposure.endMs) };
    else runs.push({ key: name, span: frame.exposure });
  }
  return runs;
}

function runLabels(frames: readonly JudgedFrame[], scale: TimeScale, palette: Palette): LaneLabel[] {
  return runsOf(frames, (frame) => palette.filter(frame.filter).short).flatMap(({ key, span }) => {
    const startMs = Math.max(span.startMs, scale.span.startMs);
    const fit = fitClass(textWidthPx(key), scale.share(startMs, span.endMs));
    return fit === null ? [] : [{ x: scale.x(startMs), text: key, fit }];
  });
}

/** The targets' names where each begins; the first follows the train's own name. */
function targetLabels(frames: readonly JudgedFrame[], name: string, scale: TimeScale): LaneLabel[] {
  const runs = runsOf(frames, (frame) => frame.target ?? '');
  const labels: LaneLabel[] = [];
  for (const [index, run] of runs.entries()) {
    if (run.key === '') continue;
    const first = index === 0;
    const startMs = first ? scale.span.startMs : Math.max(run.span.startMs, scale.span.startMs);
    const next = runs[index + 1]?.span.startMs ?? scale.span.endMs;
    const share = scale.share(startMs, next);
    // A long name is cut to what a usual picture can hold; the whole name stands in the tables and on pointing.
    const before = first ? textWidthPx(name, 13) + 14 : 0;
    const text = cutToWidth(run.key, USUAL_WIDTH_PX * share - before, 12);
    const fit = text === '' ? null : fitClass(before + textWidthPx(text, 12), share);
    if (fit !== null) labels.push({ x: first ? '' : scale.x(startMs), text, fit });
  }
  return labels;
}

export interface LaneHeights {
  readonly name: number;
  readonly runs: number;
  readonly frames: number;
  readonly accounts: number;
  /** Room at the sides of a letter before it is set inside an exposure. */
  readonly letterAir: number;
}

/** Height of a whole lane, px. */
export function laneHeight(heights: LaneHeights): number {
  return heights.name + heights.runs + heights.frames + heights.accounts;
}

/**
 * Builds a train's lane: name and targets, filters by run, exposures, and under (or over) them the accounts of the
 * closed shutter. Lanes below the mount are mirrored, so that accounts and ties meet in the middle.
 */
export function buildLane(night: Night, train: Train, top: number, below: boolean, heights: LaneHeights, scale: TimeScale, clock: Clock, palette: Palette): Lane {
  const frames = night.frames.filter((frame) => frame.train === train.id && scale.shows(frame.exposure));
  const segments = night.ledgers.find((ledger) => ledger.train === train.id)?.segments ?? [];
  const closed = segments.filter(({ account, span }) => account !== 'kept' && account !== 'doubtful' && account !== 'lost' && scale.shows(span));
  const name = `${train.id}, ${train.role}`;
  const accountY = below ? top : top + heights.name + heights.runs + heights.frames;
  const frameY = below ? top + heights.accounts : top + heights.name + heights.runs;
  const runsTop = below ? frameY + heights.frames : top + heights.name;
  const nameTop = below ? runsTop + heights.runs : top;
  return {
    train: train.id, below, name, accountY, frameY,
    nameY: nameTop + heights.name - 5,
    runY: runsTop + heights.runs - 4,
    frameHeight: heights.frames, frameEnd: frameY + heights.frames, frameMiddle: frameY + heights.frames / 2, frameHalf: heights.frames / 2, letterY: frameY + heights.frames / 2 + 3.5,
    accountHeight: heights.accounts, accountMiddle: accountY + heights.accounts / 2, accountHalf: heights.accounts / 2, accountEnd: accountY + heights.accounts,
    targets: targetLabels(frames, name, scale),
    runs: heights.runs === 0 ? [] : runLabels(frames, scale, palette),
    frames: frames.map((frame) => frameBlock(frame, heights.letterAir, scale, clock, palette)),
    accounts: closed.map(({ account, span, label }) => ({
      x: scale.x(span.startMs), width: scale.width(span.startMs, span.endMs), xEnd: scale.x(span.endMs), style: accountArea(account),
      title: `${train.id}: ${tokens().accounts[account].label}${label === undefined ? '' : ` (${label})`}, ${duration(durationMs(span))} from ${clock.seconds(span.startMs)}`,
    })),
  };
}
