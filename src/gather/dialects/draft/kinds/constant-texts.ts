import { MOTIONS } from '../lexicon/motions.js';
import { plainWords } from '../lexicon/plain-words.js';
import { wordEvidence } from '../lexicon/word-evidence.js';
import type { Kind } from './kind.js';

/** Minimum number of lines for an identical text to count as constant. */
const MANY = 4;
/** A bare `pause` may mean anything. */
const VAGUE = 2;
const SEVERAL_WORDS = /\p{L}\s+\P{Z}*\p{L}/u;

/**
 * The kinds of a log, extended with the constant texts of their records if their own words say little: `pause`, with
 * `reason: waits for the dither`; or `free`, with `wait: dither`.
 */
export function withConstantTexts(kinds: readonly Kind[]): Kind[] {
  return kinds.map((kind) => {
    const { wording, slots, count, hints, lead } = kind;
    if (count < MANY || slots.every(({ path }) => path === null)) return kind;
    const most = (words: string, names: string): number => Math.max(0, ...wordEvidence(words, names, lead).values());
    const says = (names: string): number => most(wording, names);
    const constants = slots.flatMap(({ path, type, values: [value, other] }) =>
      path !== null && type === 'text' && value !== undefined && other === undefined ? [{ path, value }] : [],
    );
    const texts = constants.filter(({ value }) => SEVERAL_WORDS.test(value)).map(({ value }) => value);
    const constant = `${wording.slice(0, lead)}${texts.join(' ')}`;
    if (texts.length > 0 && says(hints) <= VAGUE && (says(hints) === 0 || most(constant, '') > says(hints)))
      return { ...kind, wording: constant };
    const waits = constants.filter(({ path }) => MOTIONS.wait.test(plainWords(path)));
    if (waits.length === 0 || says('') > VAGUE) return kind;
    return { ...kind, wording: [wording, ...waits.map(({ path, value }) => `${path} ${value}`)].join(' ') };
  });
}
