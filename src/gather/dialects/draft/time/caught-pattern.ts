import type { Kind } from '../kinds/kind.js';
import { stampsIn } from './stamp-shapes.js';

/**
 * The patterns of further times that lines state, those with a date first.
 *
 * @param others those of their columns in the form of the rows' own
 */
export function caughtPatterns(kinds: readonly Kind[], others: readonly string[]): string[] {
  const clocks = kinds.flatMap(({ slots }) =>
    slots.filter(({ type, timesMs }) => type === 'clock' && timesMs === undefined),
  );
  const [sample] = clocks.flatMap(({ values }) => values);
  const patterns = [...others, ...(sample === undefined && others.length > 0 ? [] : [clockPattern(sample ?? '')])];
  return [...new Set(patterns)];
}

/** The pattern of a time of day. */
function clockPattern(sample: string): string {
  if (/[ap]\.?m\.?$/i.test(sample)) return '{hour12}:{minute}:{second} {am-pm}';
  if (/\d\.\d{2}\.\d{2}(?:,\d+)?$/.test(sample)) return '{hour}.{minute}.{second}';
  if (/^\d{1,2}:\d{2}$/.test(sample)) return '{hour}:{minute}';
  if (/^\d{1,2}:\d{2}:\d{2}/.test(sample)) return '{hour}:{minute}:{second}';
  const found = stampsIn(sample)
    .filter(({ start, pattern }) => start === 0 && /\{hour|\{epoch|\{julian|\{mjd/.test(pattern))
    .sort((a, b) => b.end - a.end)[0];
  if (found !== undefined && !/\{[abc]\}/.test(found.pattern)) return found.pattern;
  return /^\d{1,2}h/.test(sample) ? '{hour}h{minute}' : '{hour}:{minute}:{second}';
}
