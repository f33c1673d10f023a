/** What was gathered for one night, in addition to the headers and log lines of its timeline. */
import type { Rig, TrainConfig } from '../config/index.js';
import { hasGoals, type CameraFacts, type GatheredNight, type Interval } from '../model/index.js';
import { samplesWithin } from './guiding-samples.js';
import { crowdWarnings, eveningOf, type Session } from './session.js';
import { describeTrain, guideSource, pilotFirst } from './trains.js';

/** The night's share of a session. */
export function gatherNight(session: Session, span: Interval): GatheredNight {
  const { rig } = session;
  const lights = session.frames.filter((f) => f.kind === 'light');
  const evening = eveningOf(session, span);
  const { headers, library } = evening;
  const mine = new Set([...headers, ...library].map((f) => f.file));
  return {
    site: rig.site,
    darkness: rig.darkness,
    darkSkyMagArcsec2: rig.darkSkyMagArcsec2,
    referenceSubSeconds: rig.referenceSubSeconds,
    trains: pilotFirst(rig.trains).map((train) =>
      describeTrain(
        train,
        lights.filter((f) => f.train === train.id),
      ),
    ),
    cameras: rig.trains.map(cameraFacts),
    guideSource: guideSource(rig),
    goals: rig.targets.flatMap(({ name, aliases, raDeg, decDeg, goals }) =>
      hasGoals(goals) ? [{ name, aliases, raDeg, decDeg, goals }] : [],
    ),
    rules: rig.rules,
    guiding: session.guiding && samplesWithin(session.guiding, span),
    inputs: session.inputs.filter((i) => i.role !== 'frame' || mine.has(i.file)),
    warnings: [...session.warnings, ...crowdWarnings(evening)],
  };
}

/** What worth needs of a train's part of the rig file. */
export function cameraFacts(train: TrainConfig): CameraFacts {
  return {
    id: train.id,
    readNoiseElectrons: train.readNoiseElectrons,
    gainElectronsPerAdu: train.gainElectronsPerAdu,
    darkCurrentElectronsPerSecond: train.darkCurrentElectronsPerSecond,
    filterWidthsNm: train.filterWidthsNm,
    filterWavelengthsNm: train.filterWavelengthsNm,
    filterZenithSkies: train.filterZenithSkies,
    throughput: train.throughput,
  };
}

/** How far the trains' computers are ahead by the rig file, ms. */
export function clocksByHand({ trains }: Rig): Map<string, number> {
  return new Map(
    trains.flatMap((t) => (t.clockAheadSeconds === undefined ? [] : [[t.id, t.clockAheadSeconds * 1000] as const])),
  );
}
