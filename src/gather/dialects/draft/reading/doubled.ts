import type { HeadLine } from '../time/base-lines.js';

/** Minimum fraction of repeated lines, in a log of this minimum length. */
const TWICE = 0.9;
const MIN_LINES = 20;

/** Whether a log has every line twice in succession: two writers used the same file. */
export function isDoubled(lines: readonly HeadLine[]): boolean {
  return lines.length >= MIN_LINES && 2 * (lines.length - onceEach(lines).length) >= TWICE * lines.length;
}

/** The lines without those that repeat the one above. */
export function onceEach(lines: readonly HeadLine[]): readonly HeadLine[] {
  let isSecond = false;
  return lines.filter(({ text }, i) => {
    isSecond = !isSecond && text === lines[i - 1]?.text;
    return !isSecond;
  });
}
