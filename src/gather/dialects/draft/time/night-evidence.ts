import { isNearNight } from '../../time/near-night.js';
import { newStamp, StampPattern } from '../../time/stamp.js';
import { swappedOrder } from '../../time/swapped-order.js';

/** What is known of a log's night besides the log. */
export interface NightEvidence {
  /**
   * Days of the session's frames, and days that the head or the file's name states without any doubt; UTC midnights,
   * ms.
   */
  readonly days: readonly number[];
  /** When the file was last written, UTC ms, or NaN: a copy may be of any time. */
  readonly writtenMs: number;
}

/** The order of day and month in a date of digits, and what tells it: `null` where nothing does, or need not. */
export interface DateOrder {
  readonly pattern: string;
  readonly by: 'night' | 'file-time' | null;
  /** It can be read either way, and nothing tells. */
  readonly isOpen: boolean;
}

/**
 * Settles whether day or month comes first in a date that can be read either way: the one that falls on the night that
 * is known; where none is known, the one near which the file was written.
 *
 * @param text one that the pattern reads, or that holds what it reads
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

/** The instant that a pattern finds in a text, UTC ms; NaN where it finds none. */
export function instant(source: string, text: string): number {
  const bytes = Buffer.from(text.slice(0, 400));
  const stamp = newStamp();
  return new StampPattern(source).find(bytes, 0, bytes.length, stamp) ? stamp.ms : NaN;
}
