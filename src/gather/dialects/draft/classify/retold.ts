import type { EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { hasFile } from './own-evidence.js';

/** What is said of a frame right after its file was named stands at most so many lines further down. */
const NEAR_LINES = 4;
/** Where so many lines stand there, all of them speak of frames that were told before. */
const MOST = 0.8;

/**
 * The kinds that speak once more of frames whose files other kinds name as they are saved: the stars counted in them,
 * their size on the disk, a picture of them. A frame is saved once.
 */
export function retold(taken: ReadonlyMap<Kind, EventName>): Kind[] {
  const saved = [...taken].flatMap(([kind, event]) => (event === 'frame-saved' ? [kind] : []));
  const named = new Set(saved.filter(hasFile).flatMap(({ lines }) => lines));
  const isNear = (line: number): boolean =>
    Array.from({ length: NEAR_LINES }, (_, i) => line - 1 - i).some((before) => named.has(before));
  // A time of its own in the very line that names the file is when that was saved.
  const isSame = ({ lines }: Kind): boolean => lines.some((line) => named.has(line));
  return saved.filter(
    (kind) => !hasFile(kind) && !isSame(kind) && kind.lines.filter(isNear).length >= MOST * kind.lines.length,
  );
}
