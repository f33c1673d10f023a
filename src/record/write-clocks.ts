/** Clocks of a night in its record. */
import type { ClockNote } from '../model/index.js';
import type { ClockRecord } from './clocks.js';

/** Clocks in the record's terms. */
export function toClocks(clocks: readonly ClockNote[]): ClockRecord[] {
  return clocks.map(({ train, source, aheadMs, uncertaintyMs, corrected, by, isKnown, isAbsolute, step }) => ({
    train,
    source,
    aheadSeconds: aheadMs / 1000,
    uncertaintySeconds: uncertaintyMs / 1000,
    corrected,
    by,
    known: isKnown,
    absolute: isAbsolute,
    ...(step === undefined ? {} : { stepSeconds: step.byMs / 1000 }),
  }));
}
