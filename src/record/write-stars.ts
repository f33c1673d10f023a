/** The pixel measurements in a record. */
import type { FrameStars, PairPointing } from '../model/index.js';
import type { NightRecord } from './schema.js';

/** Zones are for the report only. */
export function toStars({
  zones: _zones,
  zoneUncertainties: _errors,
  elongationUncertainty: elongation,
  uncertainties,
  electronsPerSecond,
  ...stars
}: FrameStars): NonNullable<NightRecord['frames'][number]['stars']> {
  return {
    ...stars,
    uncertainties: uncertainties && { ...uncertainties, elongation: elongation ?? null },
    electronsPerSecond: electronsPerSecond && { ...electronsPerSecond },
    shift: stars.shift && { ...stars.shift },
  };
}

/** The basis of the figures stays in the parts. */
export function toPair({
  trains: [first, second],
  geometry: _geometry,
  flexure: _flexure,
  ...pair
}: PairPointing): NonNullable<NightRecord['pairs']>[number] {
  return { ...pair, trains: [first, second], overlap: { ...pair.overlap } };
}
