import type { EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { saysMotion } from '../lexicon/said.js';
import { hasFile } from './own-evidence.js';

/** Maximum number of lines between the file name of a frame and remarks about the frame. */
const NEAR_LINES = 4;
/** If this fraction of lines is that close, all of them are about frames already reported. */
const MOST = 0.8;

/**
 * The kinds that give further details of frames whose files other kinds name when they are saved: star counts, file
 * sizes, previews. A frame is saved once, and a star measurement is not a refocus if other lines report refocus begins
 * or ends, less frequently.
 */
export function restated(taken: ReadonlyMap<Kind, EventName>): Kind[] {
  const withFile = [...taken].flatMap(([kind, event]) => (NAMED_WITH_FILE.includes(event) ? [kind] : []));
  const named = new Set(withFile.filter(hasFile).flatMap(({ lines }) => lines));
  const isNear = (line: number): boolean =>
    Array.from({ length: NEAR_LINES }, (_, i) => line - 1 - i).some((before) => named.has(before));
  // A time of its own on the line that names the file is when the file was saved.
  const isSame = ({ lines }: Kind): boolean => lines.some((line) => named.has(line));
  const isBelow = (kind: Kind): boolean =>
    !hasFile(kind) && !isSame(kind) && kind.lines.filter(isNear).length >= MOST * kind.lines.length;
  const saved = [...taken].flatMap(([kind, event]) => (event === 'frame-saved' ? [kind] : []));
  return [...saved, ...measures(taken)].filter(isBelow);
}

const NAMED_WITH_FILE: readonly EventName[] = ['frame-saved', 'exposure-end'];
/** Measurements this many times as frequent as reported refocus runs are independent of them. */
const OFTENER = 1.5;

/** The kinds classified as focus events that only measure: `1025 stars, fwhm 2.15 px`. */
function measures(taken: ReadonlyMap<Kind, EventName>): Kind[] {
  const focused = [...taken].flatMap(([kind, event]) => (OF_FOCUS.test(event) ? [kind] : []));
  const acting = focused.filter(({ wording }) => saysMotion(wording));
  const bare = focused.filter((kind) => !acting.includes(kind));
  const linesOf = (kinds: readonly Kind[]): number => kinds.reduce((sum, { count }) => sum + count, 0);
  return acting.length > 0 && linesOf(bare) > OFTENER * linesOf(acting) ? bare : [];
}

const OF_FOCUS = /^focus-/;
