import { HOURS, isWithin } from '../model/index.js';

const PARTS = /^\s*(?:(\d+(?:\.\d+)?)\s*h(?:ours?)?)?\s*(?:(\d+(?:\.\d+)?)\s*m(?:in(?:utes?)?)?)?\s*$/iu;

/**
 * Hours from `12h`, `1h30m`, `90m`, `90 min` or a plain number of hours; `null` when it is none of these, or too many.
 */
export function parseHours(value: string | number): number | null {
  const plain = typeof value === 'number' ? value : Number(value.trim() || NaN);
  if (Number.isFinite(plain)) return isWithin(plain, HOURS) ? plain : null;
  const match = PARTS.exec(String(value));
  if (!match || (match[1] === undefined && match[2] === undefined)) return null;
  const hours = Number(match[1] ?? 0) + Number(match[2] ?? 0) / 60;
  return isWithin(hours, HOURS) ? hours : null;
}
