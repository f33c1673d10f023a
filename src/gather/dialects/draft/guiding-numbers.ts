/** Numbers of guiding samples in a line: their values, the separators, and the patterns that find them again. */
import { escaped } from './escaped.js';

/** A number with a decimal point or comma, and either kind of minus. */
export function numberOf(text: string): number {
  return Number(text.replace(',', '.').replace('\u2212', '-'));
}

/** The text between consecutive matches. */
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

/** A text escaped as a pattern, with flexible blanks. */
export function spacedPattern(text: string): string {
  return escaped(text).replace(/\s+/g, '\\s+');
}
