/** The gathered data under another rig file. */
import type { Rig } from '../config/index.js';
import { hasGoals, type GatheredNight, type Timeline } from '../model/index.js';
import { cameraFacts } from './night.js';

/**
 * The rig file's rules, darkness, cameras, goals and site replace those of the record; the assignment of frames and
 * logs to trains is unchanged.
 */
export function gatheredUnder(gathered: GatheredNight, rig: Rig): GatheredNight {
  const configs = new Map(rig.trains.map((train) => [train.id, train]));
  return {
    ...gathered,
    site: rig.site ?? gathered.site,
    darkness: rig.darkness,
    darkSkyMagArcsec2: rig.darkSkyMagArcsec2,
    referenceSubSeconds: rig.referenceSubSeconds,
    trains: gathered.trains.map((train) => {
      const config = configs.get(train.id);
      return config ? { ...train, role: config.role, apertureMm: config.apertureMm ?? train.apertureMm } : train;
    }),
    cameras: gathered.cameras.map((camera) => {
      const config = configs.get(camera.id);
      return config ? cameraFacts(config) : camera;
    }),
    goals: rig.targets.flatMap(({ name, aliases, raDeg, decDeg, goals }) =>
      hasGoals(goals) ? [{ name, aliases, raDeg, decDeg, goals }] : [],
    ),
    rules: rig.rules,
  };
}

/** The timeline with targets where the rig file has them. */
export function timelineUnder(timeline: Timeline, rig: Rig): Timeline {
  const places = new Map(rig.targets.map((target) => [target.name, target]));
  return {
    ...timeline,
    targets: timeline.targets.map((target) => {
      const place = places.get(target.name);
      return place ? { ...target, raDeg: place.raDeg, decDeg: place.decDeg, origin: place.origin } : target;
    }),
  };
}
