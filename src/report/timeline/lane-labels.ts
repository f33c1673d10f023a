/**
 * Names on a train's lane: filters by run, and targets where they begin.
 */
import type { Interval, JudgedFrame } from '../../model/index.js';
import type { Drawing } from './drawing.js';
import { cutToWidth, fitClass, fitOfAll, textWidthPx } from './scale.js';

/** A name on a lane. */
export interface LaneLabel {
  /** Empty for a label that follows the train's name. */
  readonly x: string;
  readonly text: string;
  readonly fit: string;
}

/** Sizes of the names, px. */
const NAME_PX = 13;
const TARGET_PX = 12;
/** Between the train's name and its first target, px. */
const NAME_GAP_PX = 14;
/** Width of the picture on a common screen, px. */
const USUAL_WIDTH_PX = 1000;

/** Runs of frames that share what `key` names, in order. */
function runsOf(
  frames: readonly JudgedFrame[],
  key: (frame: JudgedFrame) => string,
): { readonly key: string; readonly span: Interval }[] {
  const runs: { key: string; span: Interval }[] = [];
  for (const frame of frames) {
    const last = runs[runs.length - 1];
    const name = key(frame);
    if (last?.key === name)
      last.span = { startMs: last.span.startMs, endMs: Math.max(last.span.endMs, frame.exposure.endMs) };
    else runs.push({ key: name, span: frame.exposure });
  }
  return runs;
}

/** The filters' names where each run begins. */
export function runLabels(frames: readonly JudgedFrame[], { scale, palette }: Drawing): LaneLabel[] {
  return runsOf(frames, (frame) => palette.filter(frame.filter).short).flatMap(({ key, span }) => {
    const startMs = Math.max(span.startMs, scale.span.startMs);
    const fit = fitClass(textWidthPx(key), scale.share(startMs, span.endMs));
    return fit === null ? [] : [{ x: scale.x(startMs), text: key, fit }];
  });
}

/** The targets' names where each begins; the first follows the train's own name. */
export function targetLabels(frames: readonly JudgedFrame[], trainName: string, { scale }: Drawing): LaneLabel[] {
  const runs = runsOf(frames, (frame) => frame.target ?? '');
  return runs.flatMap(({ key, span }, index): LaneLabel[] => {
    if (key === '') return [];
    const first = index === 0;
    const startMs = first ? scale.span.startMs : Math.max(span.startMs, scale.span.startMs);
    const share = scale.share(startMs, runs[index + 1]?.span.startMs ?? scale.span.endMs);
    // A long name is truncated to what a usual picture can hold; the full name is in the tables and on hover.
    const before = first ? textWidthPx(trainName, NAME_PX) + NAME_GAP_PX : 0;
    const text = cutToWidth(key, USUAL_WIDTH_PX * share - before, TARGET_PX);
    if (text === '') return [];
    const own = { widthPx: before + textWidthPx(text, TARGET_PX), share };
    // The name of a target that begins soon after the picture does is hidden until the picture is wide enough for the
    // train's name to end before it.
    const name = {
      widthPx: textWidthPx(trainName, NAME_PX) + NAME_GAP_PX,
      share: scale.share(scale.span.startMs, startMs),
    };
    const fit = first ? fitOfAll([own]) : fitOfAll([own, name]);
    return fit === null ? [] : [{ x: first ? '' : scale.x(startMs), text, fit }];
  });
}
