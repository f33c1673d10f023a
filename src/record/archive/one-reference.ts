/** Effective hours of many nights with a common reference: hours with different ones are not comparable. */
import { ownValue, type EffectiveReference, type NightSummary, type Warning } from '../../model/index.js';

/** Zenith skies that differ by no more than this fraction are equal. */
const SAME_SKY = 1e-6;

/** A night as it is counted, using exposure time if its reference differs. */
export interface Summed {
  readonly night: NightSummary;
  readonly byClock: NightSummary | null;
}

/** Whether the rig files fixed different zenith skies for a filter of a train. */
function haveOtherSkies(a: EffectiveReference, b: EffectiveReference): boolean {
  const { zenithSkies: others = {} } = b;
  return Object.entries(a.zenithSkies ?? {}).some(([key, sky]) => {
    const other = ownValue(others, key);
    return other !== undefined && Math.abs(other - sky) > SAME_SKY * sky;
  });
}

/**
 * Counts in the reference of the latest night that has one; nights with another reference count by exposure time.
 *
 * @param nights oldest first
 * @param tell receives messages
 */
export function inOneReference(nights: readonly Summed[], tell: (warning: Warning) => void): NightSummary[] {
  const reference = nights.findLast(({ night }) => night.effectiveReference != null)?.night.effectiveReference;
  const differs = ({ night: { effectiveReference: own } }: Summed): boolean =>
    own != null &&
    reference != null &&
    (own.subSeconds !== reference.subSeconds ||
      own.darkSkyMagArcsec2 !== reference.darkSkyMagArcsec2 ||
      haveOtherSkies(own, reference));
  const others = nights.filter((one) => one.byClock !== null && differs(one));
  const [first] = others;
  if (first && reference)
    tell({
      code: 'effective-reference',
      message:
        `${others.length} night${others.length === 1 ? '' : 's'} count in clock time: their effective hours do ` +
        `not refer to subs of ${reference.subSeconds} s under a zenith sky of ${reference.darkSkyMagArcsec2} mag per ` +
        'square arcsecond, as those of the latest night do; report them again with the same referenceSub, darkSky ' +
        'and zenithSky',
      source: { file: first.night.file },
      count: others.length,
    });
  return nights.map((one) =>
    one.byClock !== null && differs(one)
      ? { ...one.byClock, keptWithoutEffective: one.byClock.totals.reduce((all, t) => all + t.frames.kept, 0) }
      : one.night,
  );
}
