import { wordEvidence } from '../lexicon/word-evidence.js';
import type { Kind } from './kind.js';

/** Lines from which on a text that all have is none of their values. */
const MANY = 4;
/** A bare `pause` may be any. */
const VAGUE = 2;
const SEVERAL_WORDS = /\p{L}\s+\P{Z}*\p{L}/u;

/**
 * The kinds of a log, worded by what all records of a kind say alike where their other words say little: `pause`, and
 * beside it `reason: waits for the dither`.
 */
export function withConstantTexts(kinds: readonly Kind[]): Kind[] {
  return kinds.map((kind) => {
    const { wording, slots, count, hints, lead } = kind;
    if (count < MANY || slots.every(({ path }) => path === null)) return kind;
    const texts = slots.flatMap(({ path, type, values }) => {
      const [value = ''] = values;
      return path !== null && type === 'text' && values.length === 1 && SEVERAL_WORDS.test(value) ? [value] : [];
    });
    if (texts.length === 0 || Math.max(0, ...wordEvidence(wording, hints, lead).values()) > VAGUE) return kind;
    return { ...kind, wording: `${wording.slice(0, lead)}${texts.join(' ')}` };
  });
}
