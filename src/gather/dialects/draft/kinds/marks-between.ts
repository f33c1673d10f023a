import { increment } from '../../../../model/index.js';
import type { Token } from '../tokens.js';

/** A mark that separates the parts of messages without a blank around it, `HR/OPN/Ha 300`. */
export interface MarkBetween {
  readonly mark: string;
  /** Number of marks that separate parts; further ones belong to the last. */
  readonly count: number;
}

const FIRST = /^[\p{L}\d_-]{1,12}(?:([/;|~])(?=\S)|(,)(?=\p{L}))/u;
/** Fraction of messages that begin with a part and such a mark, and maximum number of different first parts. */
const MOSTLY = 0.9;
const MOST_NAMES = 12;
const PER_NAME = 5;
/** Fraction of messages with no more marks than separate their parts. */
const NEARLY_ALL = 0.9;

/** The mark between the parts of messages, where most begin with one of a few names and it; `null` if there is none. */
export function markBetween(texts: readonly string[]): MarkBetween | null {
  const marks = new Map<string, number>();
  const names = new Map<string, Set<string>>();
  for (const text of texts) {
    const found = FIRST.exec(text);
    const mark = found?.[1] ?? found?.[2];
    if (found === null || mark === undefined) continue;
    increment(marks, mark);
    names.set(mark, (names.get(mark) ?? new Set()).add(found[0]));
  }
  const [mark, count = 0] = [...marks].sort((a, b) => b[1] - a[1])[0] ?? [''];
  const different = names.get(mark)?.size ?? 0;
  if (count < MOSTLY * texts.length || different > MOST_NAMES || count < PER_NAME * different) return null;
  const counts = texts.map((text) => text.split(mark).length - 1).sort((a, b) => a - b);
  return { mark, count: Math.max(1, counts[Math.floor(NEARLY_ALL * (counts.length - 1))] ?? 1) };
}

/** The tokens of a message, part by part. */
export function takenApartAt(
  { mark, count }: MarkBetween,
  text: string,
  tokensOf: (part: string) => readonly Token[],
): readonly Token[] {
  const all = text.split(mark);
  const parts = [...all.slice(0, count), all.slice(count).join(mark)].slice(0, all.length);
  return parts.flatMap((part, i): Token[] => [
    ...(i === 0 ? [] : [{ text: mark, variable: false, gap: '' } as const]),
    ...tokensOf(part),
  ]);
}
