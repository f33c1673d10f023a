/** The trains of the report: from the rig file, with gaps filled from the headers. */
import type { Rig, TrainConfig } from '../config/index.js';
import { median, type GuideSource, type HeaderFrame, type Train } from '../model/index.js';

/** Arcseconds per radian, × 10⁻³: pixel size in µm over focal length in mm gives arcseconds per pixel. */
const ARCSEC_PER_MILLIRADIAN = 206.265;

/** The rig's trains, the pilot first. */
export function pilotFirst(trains: readonly TrainConfig[]): TrainConfig[] {
  return [...trains].sort((a, b) => Number(b.role === 'pilot') - Number(a.role === 'pilot'));
}

/** Describes a train by its configuration and its lights' headers. */
export function describeTrain(config: TrainConfig, lights: readonly HeaderFrame[]): Train {
  const typical = (fact: (f: HeaderFrame) => number | undefined): number | undefined => {
    const known = lights.map(fact).filter((v) => v !== undefined);
    return known.length > 0 ? median(known) : undefined;
  };
  const focalLengthMm = config.focalLengthMm ?? typical((f) => f.focalLengthMm);
  const pixelSizeUm = config.pixelSizeUm ?? typical((f) => f.pixelSizeUm);
  const binning = typical((f) => f.binning?.x) ?? 1;
  return {
    id: config.id,
    role: config.role,
    focalLengthMm,
    apertureMm: config.apertureMm ?? typical((f) => f.apertureMm),
    pixelSizeUm,
    pixelScaleArcsec:
      focalLengthMm && pixelSizeUm ? (ARCSEC_PER_MILLIRADIAN * pixelSizeUm * binning) / focalLengthMm : undefined,
  };
}

/** The guiding equipment, from the rig file. */
export function guideSource({ guiding }: Rig): GuideSource {
  return guiding ? { source: guiding.source, train: guiding.train } : { source: 'unknown' };
}
