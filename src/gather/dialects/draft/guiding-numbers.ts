/**
 * Numbers of guiding samples in a line: their values, what stands between them, and the patterns that find them
 * again.
 */
import { escaped } from './escaped.js';

/** A number with a point or a comma, and a minus of either kind. */
export function numberOf(text: string): number {
  return Number(text.replace(',', '.').replace('\u2212', '-'));
}

/** What stands between matches that follow each other. */
export function gapsBetween(text: string, found: readonly RegExpExecArray[]): string[] {
  return found.slice(1).map((match, i) => {
    const before = found[i];
    return text.slice((before?.index ?? 0) + (before?.[0].length ?? 0), match.index);
  });
}

/** The pattern of one number. */
export function numberPattern(decimalComma: boolean): string {
  return `[-+\u2212]?\\d[\\d${decimalComma ? ',' : '.'}]*`;
}

/** A text as a pattern of itself, with any blanks where it has some. */
export function spacedPattern(text: string): string {
  return escaped(text).replace(/\s+/g, '\\s+');
}
