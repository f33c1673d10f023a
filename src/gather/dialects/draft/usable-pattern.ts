import { PatternError, usableEngine } from '../pattern/pattern.js';
import type { WhenText } from './kinds/kind.js';

/** Whether a dialect can use the pattern as it is. */
export function isUsablePattern(pattern: string): boolean {
  try {
    usableEngine(pattern, false);
    return true;
  } catch (error) {
    if (error instanceof PatternError) return false;
    throw error;
  }
}

/** The same for a rule's condition, on the line or on fields. */
export function isUsable(when: WhenText): boolean {
  return typeof when === 'string' ? isUsablePattern(when) : Object.values(when).every(isUsablePattern);
}
