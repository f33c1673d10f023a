/**
 * Effective hours of many nights, counted in one reference: hours of different ones are not of one kind.
 */
import type { NightSummary, Warning } from '../../model/index.js';

/** A night as it is counted, and by the clock where that is another count. */
export interface Summed {
  readonly night: NightSummary;
  readonly byClock: NightSummary | null;
}

/**
 * Counts in the reference of the latest night that has one; nights in another count by the clock.
 *
 * @param nights oldest first
 * @param tell takes what has to be said
 */
export function inOneReference(nights: readonly Summed[], tell: (warning: Warning) => void): NightSummary[] {
  const reference = nights.findLast(({ night }) => night.effectiveReference != null)?.night.effectiveReference;
  const differs = ({ night: { effectiveReference: own } }: Summed): boolean =>
    own != null &&
    reference != null &&
    (own.subSeconds !== reference.subSeconds || own.darkSkyMagArcsec2 !== reference.darkSkyMagArcsec2);
  const others = nights.filter((one) => one.byClock !== null && differs(one));
  const [first] = others;
  if (first && reference)
    tell({
      code: 'effective-reference',
      message:
        `${others.length} night${others.length === 1 ? '' : 's'} count by the clock: their effective hours are ` +
        'not of ' +
        `subs of ${reference.subSeconds} s under a zenith sky of ${reference.darkSkyMagArcsec2} mag per square ` +
        'arcsecond, as those of the latest night are; report them again with one referenceSub and darkSky',
      source: { file: first.night.file },
      count: others.length,
    });
  return nights.map((one) =>
    one.byClock !== null && differs(one)
      ? { ...one.byClock, keptWithoutEffective: one.byClock.totals.reduce((all, t) => all + t.frames.kept, 0) }
      : one.night,
  );
}
