/** The stars of the night's own exposures, and the drift rate of the field without guiding. */
import {
  durationMs,
  indexSpans,
  factsOfMotion,
  median,
  MOUNT_KINDS,
  ownValue,
  starSigmas,
  touchedMs,
  UNGUIDED_KINDS,
  usualStars,
  type AccountedNight,
} from '../../model/index.js';
import type { DriftRate, OwnExposure, TrainEvidence } from '../evidence.js';

/** By train. */
export function evidenceOf({
  gathered: { trains, rules },
  timeline: { activities },
  accounts: { lights },
  stars,
}: AccountedNight): ReadonlyMap<string, TrainEvidence> {
  const usual = usualStars(lights, stars, rules);
  const sigmas = starSigmas({ lights, trains, stars });
  const of = (kinds: readonly string[]) =>
    indexSpans(
      activities.filter((a) => kinds.includes(a.kind)),
      (a) => a.span,
    );
  const [motion, off] = [of(MOUNT_KINDS), of(UNGUIDED_KINDS)];
  return new Map(
    trains.map(({ id }) => {
      const exposures = lights.flatMap((light): OwnExposure[] => {
        const measured = ownValue(stars?.frames, light.id);
        const usually = usual.get(light.id);
        if (light.train !== id || measured === undefined || usually === undefined) return [];
        return [
          {
            span: light.exposure,
            ...factsOfMotion(motion.touching(light.exposure), light.exposure),
            unguidedMs: touchedMs(off.touching(light.exposure), light.exposure),
            stars: measured,
            usual: usually,
          },
        ];
      });
      return [id, { exposures, sigmaArcsec: sigmas.get(id) ?? null }];
    }),
  );
}

/** The median over the intervals with a measured drift. */
export function driftRateOf({ accounts: { guidingDrifts } }: AccountedNight): DriftRate {
  const rates = guidingDrifts
    .filter(({ span }) => durationMs(span) > 0)
    .map(({ span, driftArcsec }) => (driftArcsec / durationMs(span)) * 1000);
  return rates.length === 0 ? null : median(rates);
}
