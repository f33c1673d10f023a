import { increment } from '../../../../model/index.js';
import { plainWords } from '../lexicon/plain-words.js';
import { isSubject, saysMotion } from '../lexicon/said.js';
import type { Kind } from './kind.js';

/** Letters with a point behind them, and something behind it: `Bel. 3 fertig`. */
const SHORT = /(?<![\p{L}\d])\p{L}{2,5}\.(?=\s?[^\s.])/gu;
const WORD = /(?<![\p{L}\d])\p{L}{5,}(?![\p{L}.])/gu;
/** Letters that are left out at least. */
const LEFT_OUT = 2;

/**
 * The kinds with the words for which a log writes abbreviations now and then: `Bel. 3 fertig` beside `Belichtung 4
 * fertig`. Only the names of subjects are taken, and what the lexicon knows stays as it is.
 */
export function withWholeWords(kinds: readonly Kind[]): readonly Kind[] {
  const wholes = new Map<string, number>();
  for (const { wording, count } of kinds)
    for (const [word] of wording.matchAll(WORD)) if (isSubject(word)) increment(wholes, word.toLowerCase(), count);
  if (wholes.size === 0) return kinds;
  const commonest = [...wholes].sort((a, b) => b[1] - a[1]).map(([word]) => word);
  const wholeOf = (short: string): string => {
    const letters = short.slice(0, -1).toLowerCase();
    if (isSubject(letters) || saysMotion(letters) || plainWords(letters) === '') return short;
    return commonest.find((word) => word.startsWith(letters) && word.length >= letters.length + LEFT_OUT) ?? short;
  };
  return kinds.map((kind) => {
    const wording = kind.wording.replace(SHORT, wholeOf);
    if (wording === kind.wording) return kind;
    // The part that names the device may have become longer.
    const lead = kind.wording.slice(0, kind.lead).replace(SHORT, wholeOf).length;
    return { ...kind, wording, lead };
  });
}
