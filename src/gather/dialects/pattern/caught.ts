import type { Captures, Pattern } from './pattern.js';

const NOTHING: Captures = [];

/** The captures of a pattern in a text; `null` if it does not match. */
export function caught(pattern: Pattern, text: string): Captures | null {
  if (pattern.groups.size > 0) return pattern.exec(text);
  return pattern.test(text) ? NOTHING : null;
}
