/** Where the trains were pointed, per target: registration and the results derived from it. */
import {
  groupBy,
  type GatheredNight,
  type PairPointing,
  type Timeline,
  type Train,
  type TrainPointing,
  type Warning,
} from '../../model/index.js';
import type { LightGroup } from './lights.js';
import { pairPointing } from './pair-pointing.js';
import type { RegisteredLights } from './register-night.js';
import { scaleDoubts } from './scale-doubt.js';
import { type AimedGroup, aimedGroup, loggedDithers, trainPointing } from './train-pointing.js';

export type { MeasuredLight } from './lights.js';
export { type RegisteredGroup, registerLights, type RegisteredLights } from './register-night.js';

/** What the pointing needs of the night. */
export interface PointingNight {
  readonly gathered: Pick<GatheredNight, 'trains' | 'guideSource'>;
  readonly timeline: Pick<Timeline, 'activities' | 'targets'>;
}

/** All results on the trains' pointing. */
export interface NightPointing {
  readonly pointings: readonly TrainPointing[];
  readonly pairs: readonly PairPointing[];
  readonly warnings: readonly Warning[];
}

/** 1 µm at 1 mm, arcsec. */
const ARCSEC_PER_MILLIRADIAN = (180 / Math.PI) * 3.6;

/** Derives the pointing of each train and pair, per target, from the largest group of frames. */
export function pointingOf({ groups }: RegisteredLights, { gathered, timeline }: PointingNight): NightPointing {
  const logged = loggedDithers(timeline.activities);
  const pointings: TrainPointing[] = [];
  const pairs: PairPointing[] = [];
  const warnings: Warning[] = [];
  for (const [name, own] of groupBy(groups, ({ target }) => target)) {
    const target = timeline.targets.find((one) => one.name === name);
    const groupsOfTrains = guidedFirst(gathered).flatMap((train): AimedGroup[] => {
      const group = own.find((one) => one.train === train.id);
      const found = group && aimedGroup(group, scaleOf(train, group));
      return found ? [found] : [];
    });
    const aimed = withScales(groupsOfTrains);
    const stated = groupsOfTrains.flatMap(({ group: { train }, scaleArcsec }) =>
      scaleArcsec === null ? [] : [[train, scaleArcsec] as const],
    );
    warnings.push(...scaleDoubts(aimed.pairs, new Map(stated)));
    for (const one of aimed.trains) pointings.push(trainPointing(one, logged, target));
    pairs.push(...aimed.pairs);
    if (aimed.trains.length > 1 && aimed.trains[0]?.scaleArcsec === null) warnings.push(noScale(name));
  }
  return { pointings, pairs, warnings };
}

/** The guided train comes first: its stars are stationary, and the others are compared with it. */
function guidedFirst({ trains, guideSource }: PointingNight['gathered']): readonly Train[] {
  const guided = trains.find(({ id }) => id === guideSource.train) ?? trains.find(({ role }) => role === 'pilot');
  return guided ? [guided, ...trains.filter((train) => train !== guided)] : trains;
}

/** Arcsec per pixel as stored, by focal length, pixel size and this group's binning. */
function scaleOf(train: Train, group: LightGroup): number | null {
  const { focalLengthMm, pixelSizeUm, pixelScaleArcsec } = train;
  const binning = group.lights[0]?.frame.header?.binning?.x ?? 1;
  if (focalLengthMm && pixelSizeUm) return (ARCSEC_PER_MILLIRADIAN * pixelSizeUm * binning) / focalLengthMm;
  return pixelScaleArcsec ?? null;
}

/** Pairs of the first train with each other one; a scale that the rig does not state follows from the other's. */
function withScales(aimed: readonly AimedGroup[]): {
  readonly trains: readonly AimedGroup[];
  readonly pairs: readonly PairPointing[];
} {
  const [first, ...others] = aimed;
  if (!first || first.scaleArcsec === null) return { trains: aimed, pairs: [] };
  const scaled = { ...first, scaleArcsec: first.scaleArcsec };
  const found = others.map((other) => ({ other, pair: pairPointing(scaled, other) }));
  return {
    trains: [
      first,
      ...found.map(({ other, pair }) => ({
        ...other,
        scaleArcsec: other.scaleArcsec ?? (pair && scaled.scaleArcsec / pair.scaleRatio),
      })),
    ],
    pairs: found.flatMap(({ pair }) => pair ?? []),
  };
}

function noScale(target: string): Warning {
  return {
    code: 'pair-without-scale',
    message:
      `The trains’ fields on ${target} are not compared: give focalLength and pixelSize of each train in the ` +
      'rig file.',
  };
}
