import type { Kind } from '../kinds/kind.js';
import { stampsIn } from './stamp-shapes.js';

/** The pattern of times of day that lines state besides their own. */
export function caughtPattern(kinds: readonly Kind[]): string {
  const sample =
    kinds.flatMap(({ slots }) => slots.filter(({ type }) => type === 'clock').flatMap(({ values }) => values))[0] ?? '';
  if (/[ap]\.?m\.?$/i.test(sample)) return '{hour12}:{minute}:{second} {am-pm}';
  if (/\d\.\d{2}\.\d{2}(?:,\d+)?$/.test(sample)) return '{hour}.{minute}.{second}';
  if (/^\d{1,2}:\d{2}$/.test(sample)) return '{hour}:{minute}';
  if (/^\d{1,2}:\d{2}:\d{2}/.test(sample)) return '{hour}:{minute}:{second}';
  const found = stampsIn(sample)
    .filter(({ start, pattern }) => start === 0 && /\{hour|\{epoch/.test(pattern))
    .sort((a, b) => b.end - a.end)[0];
  if (found !== undefined && !/\{[abc]\}/.test(found.pattern)) return found.pattern;
  return /^\d{1,2}h/.test(sample) ? '{hour}h{minute}' : '{hour}:{minute}:{second}';
}
