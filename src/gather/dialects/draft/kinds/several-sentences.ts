import type { Kind } from './kind.js';

/** Minimum fraction of a log's lines for its lines to be paragraphs. */
const MANY = 0.1;
const TIME = /(?<!\d)\d{1,2}:\d{2}/;
/** The end of a sentence; what an abbreviation ends is no sentence with a time. */
const END = /(?<=[\p{L}\p{N}°)][.!])\s+(?=[\p{L}\p{N}])/u;
/** A shorter piece is a remark. */
const MIN_SENTENCE = 20;

/**
 * The kinds whose lines are paragraphs of several sentences, each with a time of its own. A rule reads a line as a
 * whole and cannot tell which sentence its times belong to. Empty if few lines of the log are.
 */
export function paragraphKinds(kinds: readonly Kind[]): ReadonlySet<Kind> {
  const found = kinds.filter(({ examples }) => examples.length > 0 && examples.every(isParagraph));
  const lines = (of: readonly Kind[]): number => of.reduce((sum, { count }) => sum + count, 0);
  return new Set(lines(found) >= MANY * lines(kinds) ? found : []);
}

function isParagraph(text: string): boolean {
  if (text.includes('\n')) return false;
  return text.split(END).filter((one) => one.length >= MIN_SENTENCE && TIME.test(one)).length >= 2;
}
