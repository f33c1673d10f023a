/** Common properties of all lights of one train and filter. */
import {
  byFilter,
  groupBy,
  textsKey,
  type CameraFacts,
  type Frame,
  type JudgedFrame,
  type MeasureNote,
  type Train,
} from '../model/index.js';
import { bandOf, type Band } from './band.js';
import { measureSky, type SkyMeasurement } from './measured-sky.js';
import { electronsPerAdu, noiseOf, type Noise } from './noise-basis.js';
import { relativeSky, type PredictedSky, type SkyModel } from './sky-model.js';

export interface Light {
  readonly train: string;
  /** Empty when no filter is named. */
  readonly filter: string;
  readonly band: Band;
  readonly noise: Noise;
  readonly measured: SkyMeasurement | null;
  /** The clear sky the model predicts through the filter. */
  readonly predicted: PredictedSky;
  readonly notes: readonly MeasureNote[];
}

/** What is known about the site, the trains and their calibration. */
export interface LightContext {
  readonly elevationM: number;
  readonly darkSkyMagArcsec2: number;
  /** Length of the reference frame, ms. */
  readonly referenceMs: number;
  readonly trains: readonly Train[];
  readonly cameras: readonly CameraFacts[];
  readonly calibration: readonly Frame[];
  readonly model: SkyModel;
}

/** Frames of one key share a {@link Light}. */
export function lightKey({ train, filter }: Pick<Frame, 'train' | 'filter'>): string {
  return textsKey(train, filter ?? '');
}

/** Gathers what the lights of each train and filter share; by {@link lightKey}. */
export function lightsOf(frames: readonly JudgedFrame[], context: LightContext): Map<string, Light> {
  return new Map(
    [...groupBy(frames, lightKey)].flatMap(([key, lights]) => {
      const [first] = lights;
      return first ? [[key, lightOf(first, lights, context)] as const] : [];
    }),
  );
}

/** What lights of one train and filter share; `lights` may be none, for a filter that was not used. */
export function lightOf(
  { train, filter = '' }: Pick<Frame, 'train' | 'filter'>,
  lights: readonly JudgedFrame[],
  context: LightContext,
): Light {
  const { model, elevationM, darkSkyMagArcsec2, calibration } = context;
  const config = context.cameras.find((c) => c.id === train);
  const band = bandOf(filter, config, model, elevationM);
  const predicted = relativeSky(model, band.k, darkSkyMagArcsec2);
  const measured = measureSky({
    lights,
    calibration,
    predicted: ({ sky }) => (sky ? predicted(sky) : null),
    electronsPerAdu: (frame) => electronsPerAdu(config, frame),
    zenithElectronsPerSecond: byFilter(config?.filterZenithSkies, filter),
    darkElectronsPerSecond: config?.darkCurrentElectronsPerSecond ?? 0,
  });
  const noise = noiseOf({
    trainId: train,
    filter,
    train: context.trains.find((t) => t.id === train),
    config,
    lights,
    band,
    darkSkyMagArcsec2,
    measured,
  });
  return {
    train,
    filter,
    band,
    noise,
    measured,
    predicted,
    notes: [...levelNote(train, filter, lights, measured), ...starCountNote(train, filter, lights)],
  };
}

function levelNote(
  train: string,
  filter: string,
  lights: readonly JudgedFrame[],
  measured: SkyMeasurement | null,
): MeasureNote[] {
  if (!measured) return [];
  const carried = lights.filter((f) => f.header?.backgroundAdu !== undefined).length;
  return [
    {
      train,
      filter,
      measure: 'level',
      used: measured.used,
      frames: measured.used ? measured.skies.size : carried,
      how: measured.how,
    },
  ];
}

/** Counts are in many headers, and easily mistaken for it. */
function starCountNote(train: string, filter: string, lights: readonly JudgedFrame[]): MeasureNote[] {
  const counted = lights.filter((f) => f.header?.starCount !== undefined).length;
  if (counted === 0) return [];
  return [
    {
      train,
      filter,
      measure: 'star-count',
      used: false,
      frames: counted,
      how: 'a star count is not a flux: it also falls with a brighter sky and a softer focus',
    },
  ];
}
