import { NEGATION_WORDS } from './chatter-words.js';
import { allWords } from './languages.js';
import { MOTIONS, type Motion } from './motions.js';
import { wordList } from './plain-words.js';

/** Marks in front of, or behind, a line's words that say which way it goes. */
const MARKS: readonly (readonly [RegExp, Motion])[] = [
  [/^\W{0,2}(?:>|▶|→|\^|↑|\[(?![^\]]*\])|\{(?![^}]*\}))\s?\p{L}/u, 'start'],
  [/^\W{0,2}(?:<(?![^>]*>)|■|←|\]|\}|↓)\s?\p{L}/u, 'stop'],
  [/^\+\s?\p{L}|\p{L}\+(?:\s|$)/u, 'start'],
  [/^-\s?\p{L}|\p{L}-(?:\s|$)/u, 'stop'],
  [/^\?\s?\p{L}|\?$/u, 'ready'],
  [/(?:^|\s)B(?=\s|$)/, 'start'],
  [/(?:^|\s)E(?=\s|$)/, 'stop'],
  [/(?:^|\s)X(?=\s|$)/, 'fail'],
  [/^(?:!|x(?=\p{Lu})|✗|×)\s?\p{L}/u, 'fail'],
];

const NEGATION = wordList(allWords(NEGATION_WORDS));

/** The motions that the words and marks of a line name. */
export function motionsIn(wording: string, words: string): Set<Motion> {
  const motions = new Set<Motion>();
  for (const [motion, pattern] of Object.entries(MOTIONS) as [Motion, RegExp][])
    if (pattern.test(words)) motions.add(motion);
  for (const [pattern, motion] of MARKS) if (pattern.test(wording.trim())) motions.add(motion);
  // `Star not found`, `non vedo la stella`: what is not there is lost.
  if (motions.has('find') && !motions.has('lose') && NEGATION.test(words)) {
    motions.delete('find');
    motions.add('lose');
  }
  return motions;
}
