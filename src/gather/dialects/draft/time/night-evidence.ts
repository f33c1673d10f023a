import { isNearNight } from '../../time/near-night.js';
import { newStamp, StampPattern } from '../../time/stamp.js';
import { swappedOrder } from '../../time/swapped-order.js';

/** Evidence of a log's night from outside the log's stamps. */
export interface NightEvidence {
  /** Dates of the session's frames, and unambiguous dates in the head or the file name; UTC midnights, ms. */
  readonly days: readonly number[];
  /** When the file was last modified, UTC ms, or NaN: a copy may be from any time. */
  readonly writtenMs: number;
}

/**
 * The order of day and month in a numeric date, and the evidence for it: `null` if there is none, or none is needed.
 */
export interface DateOrder {
  readonly pattern: string;
  readonly by: 'night' | 'file-time' | null;
  /** It can be read either way, without evidence. */
  readonly isOpen: boolean;
}

/**
 * Determines whether day or month comes first in an ambiguous date: the reading that matches the known night; without
 * one, the reading closest to the file's modification time.
 *
 * @param text one that the pattern reads, or that contains it
 */
export function dateOrder(pattern: string, text: string, { days, writtenMs }: NightEvidence): DateOrder {
  const other = swappedOrder(pattern);
  const asRead = instant(pattern, text);
  const asOther = other === null ? NaN : instant(other, text);
  if (other === null || Number.isNaN(asRead) || Number.isNaN(asOther) || asRead === asOther)
    return { pattern, by: null, isOpen: false };
  const isNear = (ms: number, known: readonly number[]): boolean => known.some((one) => isNearNight(ms, one));
  for (const [by, known] of [
    ['night', days],
    ['file-time', [writtenMs]],
  ] as const) {
    const [own, others] = [isNear(asRead, known), isNear(asOther, known)];
    if (own !== others) return { pattern: own ? pattern : other, by, isOpen: false };
  }
  return { pattern, by: null, isOpen: true };
}

/** The instant that a pattern finds in a text, UTC ms; NaN if none. */
export function instant(source: string, text: string): number {
  const bytes = Buffer.from(text.slice(0, 400));
  const stamp = newStamp();
  return new StampPattern(source).find(bytes, 0, bytes.length, stamp) ? stamp.ms : NaN;
}
