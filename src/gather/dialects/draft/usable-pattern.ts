import { PatternError, usableEngine } from '../pattern/pattern.js';
import type { WhenText } from './kinds/kind.js';

/** Whether a dialect can use the pattern as it stands. */
export function isUsablePattern(pattern: string): boolean {
  try {
    usableEngine(pattern, false);
    return true;
  } catch (error) {
    if (error instanceof PatternError) return false;
    throw error;
  }
}

/** The same of a rule's condition, whether on the line or on fields. */
export function isUsable(when: WhenText): boolean {
  return typeof when === 'string' ? isUsablePattern(when) : Object.values(when).every(isUsablePattern);
}
