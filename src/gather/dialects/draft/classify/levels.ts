import type { Kind } from '../kinds/kind.js';

const DEBUG = /^(?:debug|dbg|trace|trc|verbose|d)$/i;
/** The level among the first words of a line; a single letter counts only in first position. */
const IN_FRONT = /^\W*(?:\S+\s+){0,2}?[[(<|]?(?:DEBUG|debug|Debug|DBG|TRACE|trace|VERBOSE)[\])>|:]?(?:\s|$)|^D[\s/:]/;

/** Whether the lines of a kind are marked as debug output. */
export function isDebug({ wording, slots, isDetail }: Kind): boolean {
  if (isDetail === true || IN_FRONT.test(wording)) return true;
  return slots.some(
    ({ path, type, values }) =>
      path !== null && type === 'text' && values.length > 0 && values.every((value) => DEBUG.test(value)),
  );
}
