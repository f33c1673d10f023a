import type { EventName } from '../../../../model/index.js';
import { isOver } from './hold-outcomes.js';
import { withUmlauts } from './main-clause.js';
import { motionsIn } from './motion-words.js';
import { MOTIONS, type Motion } from './motions.js';
import { plainWords } from './plain-words.js';
import type { Subject, SubjectId } from './subjects.js';

const CUT_SHORT = 2.5;
const HOLD = { over: 2.5, reasoned: 2, bare: 0.9 } as const;
const NAMELESS_READY = 0.7;

const REASON = /[,;:(–—]\s?|\s-\s/u;
const REASONS: ReadonlySet<SubjectId> = new Set(['hold', 'star', 'noise']);

/** `Closed early, clouds`: something closes before its time, and what follows is only the reason. */
export function cutShort(message: string, strengths: ReadonlyMap<Subject, number>): Map<EventName, number> | null {
  const [first = '', ...others] = message.split(REASON);
  if (others.length === 0 || ![...strengths.keys()].every(({ id }) => REASONS.has(id))) return null;
  const motions = motionsIn(first, withUmlauts(plainWords(first)));
  return motions.has('abort') && motions.has('close') ? new Map([['exposure-abort', CUT_SHORT]]) : null;
}

/** One or two words and the reason behind a mark. */
const WAITS_FOR = /^\s*\p{L}+(?: \p{L}+)?\s?[:(]\s?\p{L}/u;
const KEPT = /\b(?:kept|held)\b/;
const FILLER = /^(?:kept|still|being|now|the|a|is|are|we|i|der|die|das|ist|wir|le|la|el|il|het|de|o|on|est|es|e|si)$/;

/**
 * `Waiting over`, `Kept waiting`, `Waiting: too bright`: the night is held up, whatever for; `null` for other texts. A
 * wait alone may also be that of a train for the next dither.
 */
export function waitAlone(
  message: string,
  words: string,
  motions: ReadonlySet<Motion>,
  strengths: ReadonlyMap<Subject, number>,
): Map<EventName, number> | null {
  if (!motions.has('wait') || motions.has('ready')) return null;
  const others = words.split(' ').filter((word) => !FILLER.test(word) && !MOTIONS.wait.test(word) && !isOver(word));
  if (others.length === 0) {
    if (isOver(words)) return new Map([['hold-end', HOLD.over]]);
    if (!KEPT.test(words)) return null;
    return new Map([
      ['hold-begin', HOLD.bare],
      ['dither-ready', NAMELESS_READY],
    ]);
  }
  const isUnnamed = [...strengths.keys()].every(({ id }) => id === 'noise');
  return isUnnamed && WAITS_FOR.test(message) ? new Map([['hold-begin', HOLD.reasoned]]) : null;
}
