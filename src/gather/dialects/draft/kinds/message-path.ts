import { isFilterName, isFrameFile, isNumber } from './values.js';

const YES_NO = /^(?:true|false|yes|no|ok|null|none)$/i;
const DESIGNATION = /^(?:NGC|IC|UGC|PGC|LDN|LBN|Sh-?2|Arp|Abell|Barnard|vdB|M)[ _-]?\d+/i;
const TIME_LIKE = /\d{1,2}:\d{2}|\d{4}-\d{2}-\d{2}/;
/** Different values of a field that tells what happened, at most; sentences have more. */
export const MAX_DISTINCT = 80;

/** A field of the records of a log: how many have it, and its values with the number of each. */
export interface PathFacts {
  readonly path: string;
  count: number;
  readonly values: Map<string, number>;
}

/** The field with sentences, whose wording must be sorted like that of a text log. */
export function messagePath(facts: readonly PathFacts[], total: number): string | null {
  const sentences = facts.filter(
    (one) =>
      one.count > total / 2 &&
      wordShare(one) > 0.8 &&
      (one.values.size > MAX_DISTINCT || sentenceShare(one) > 0.5) &&
      [...one.values.keys()].some((value) => /\d/.test(value) && /\s/.test(value)),
  );
  return sentences.sort((a, b) => b.values.size - a.values.size)[0]?.path ?? null;
}

function sentenceShare({ values }: PathFacts): number {
  return [...values.keys()].filter((value) => value.split(/\s+/).length >= 3).length / Math.max(1, values.size);
}

/** Shares of a path's values that are words, not values of the trade. */
export function wordShare({ values }: PathFacts): number {
  const words = [...values.keys()].filter((value) => !isValue(value) && /\p{L}/u.test(value)).length;
  return words / Math.max(1, values.size);
}

function isValue(text: string): boolean {
  return (
    isNumber(text) ||
    isFilterName(text) ||
    YES_NO.test(text) ||
    (!isSentence(text) && (isFrameFile(text) || DESIGNATION.test(text) || TIME_LIKE.test(text)))
  );
}

/** A value inside a sentence, `image saved as night_0012.fits`, makes no value of it. */
function isSentence(text: string): boolean {
  return text.split(/\s+/).filter((word) => /^\p{Ll}{2,}[.,:;]?$/u.test(word)).length >= 2;
}
