import type { EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { saysMotion } from '../lexicon/said.js';
import { hasFile } from './own-evidence.js';

/** What is said of a frame right after its file was named stands at most so many lines further down. */
const NEAR_LINES = 4;
/** Where so many lines stand there, all of them speak of frames that were told before. */
const MOST = 0.8;

/**
 * The kinds that speak once more of frames whose files other kinds name as they are saved: the stars counted in them,
 * their size on the disk, a picture of them. A frame is saved once, and a measure of its stars is no refocus where
 * other lines say that one begins or is done, and more seldom.
 */
export function restated(taken: ReadonlyMap<Kind, EventName>): Kind[] {
  const withFile = [...taken].flatMap(([kind, event]) => (NAMED_WITH_FILE.includes(event) ? [kind] : []));
  const named = new Set(withFile.filter(hasFile).flatMap(({ lines }) => lines));
  const isNear = (line: number): boolean =>
    Array.from({ length: NEAR_LINES }, (_, i) => line - 1 - i).some((before) => named.has(before));
  // A time of its own in the very line that names the file is when that was saved.
  const isSame = ({ lines }: Kind): boolean => lines.some((line) => named.has(line));
  const isBelow = (kind: Kind): boolean =>
    !hasFile(kind) && !isSame(kind) && kind.lines.filter(isNear).length >= MOST * kind.lines.length;
  const saved = [...taken].flatMap(([kind, event]) => (event === 'frame-saved' ? [kind] : []));
  return [...saved, ...measures(taken)].filter(isBelow);
}

const NAMED_WITH_FILE: readonly EventName[] = ['frame-saved', 'exposure-end'];
/** As often as this as runs are told, stars are measured without one. */
const OFTENER = 1.5;

/** The kinds taken for the focus that only measure: `1025 stars, fwhm 2.15 px`. */
function measures(taken: ReadonlyMap<Kind, EventName>): Kind[] {
  const focused = [...taken].flatMap(([kind, event]) => (OF_FOCUS.test(event) ? [kind] : []));
  const acting = focused.filter(({ wording }) => saysMotion(wording));
  const bare = focused.filter((kind) => !acting.includes(kind));
  const linesOf = (kinds: readonly Kind[]): number => kinds.reduce((sum, { count }) => sum + count, 0);
  return acting.length > 0 && linesOf(bare) > OFTENER * linesOf(acting) ? bare : [];
}

const OF_FOCUS = /^focus-/;
