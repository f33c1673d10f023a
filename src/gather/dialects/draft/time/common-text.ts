import { increment } from '../../../../model/index.js';
import { escapeBraces } from './counting.js';
import type { StampGuess } from './guess.js';
import { RoughClock } from './rough-clock.js';

const LOOKED_AT = 3000;
const MIN_LINES = 20;
/** Minimum fraction of lines with this text after their stamps. */
const NEARLY_ALL = 0.97;
/** Maximum number of words and marks before the difference; more of them are a message. */
const MOST_CHUNKS = 4;
/** Minimum variation of messages after the common text. */
const MIN_DIFFERENT = 5;

/**
 * The stamp extended by the text directly after it on all lines: the machine and program that wrote them, a separator,
 * a constant level. It carries no information. A single word is kept: it may be the train.
 */
export function withCommonText(guess: StampGuess | null, all: readonly string[]): StampGuess | null {
  if (guess?.at !== 'start' || guess.more !== undefined) return guess;
  const clock = new RoughClock(guess.pattern, 'start');
  let glued = 0;
  const lines = all.slice(0, LOOKED_AT).flatMap((text) => {
    const rest = clock.read(text)?.rest;
    if (rest === undefined) return [];
    if (/^\S/.test(rest)) glued++;
    return [rest.trim().split(/\s+/)];
  });
  if (lines.length < MIN_LINES) return guess;
  const common: string[] = [];
  let left = lines;
  while (common.length < MOST_CHUNKS) {
    const [text, count] = commonest(left.map((chunks) => chunks[common.length] ?? ''));
    const own = left.filter((chunks) => chunks[common.length] === text && chunks.length > common.length + 1);
    if (text === '' || count < NEARLY_ALL * lines.length || own.length < NEARLY_ALL * lines.length) break;
    common.push(text);
    left = own;
  }
  const isName = common.length === 1 && /^[\p{L}\d_-]+$/u.test(common[0] ?? '') && /\p{L}/u.test(common[0] ?? '');
  const different = new Set(left.map((chunks) => chunks.slice(common.length, common.length + 2).join(' ')));
  if (common.length === 0 || isName || different.size < MIN_DIFFERENT) return guess;
  const isGlued = glued > 0.5 * lines.length && !/\s$/.test(guess.pattern);
  const pattern = `${guess.pattern.trimEnd()}${isGlued ? '' : ' '}${common.map(escapeBraces).join(' ')}`;
  return { ...guess, pattern, ...(left.length < lines.length ? { more: [guess.pattern] } : {}) };
}

/** The most common of these texts, and its count. */
export function commonest(texts: readonly string[]): readonly [string, number] {
  const counts = new Map<string, number>();
  for (const text of texts) increment(counts, text);
  return [...counts].sort((a, b) => b[1] - a[1])[0] ?? ['', 0];
}
