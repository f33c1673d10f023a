/**
 * What the night was worth: every light beside the same exposure under a dark sky at the zenith. What is needed of
 * the sky is handed in.
 */
import { DEFAULT_DARK_SKY_MAG_ARCSEC2 } from '../config/index.js';
import {
  groupBy,
  type FilterOrder,
  type JudgedFrame,
  type MoonlightCurve,
  type TargetCurve,
  type Total,
  type WorthAssessment,
} from '../model/index.js';
import { filterOrder } from './filter-order.js';
import { frameKey, totalKey, weighGroup, type Group } from './group.js';
import { lightKey, lightsOf, type LightContext } from './light.js';
import { relativeSky, V_WAVELENGTH_NM } from './sky-model.js';

export type { SkyModel } from './sky-model.js';

export interface WorthInput extends Omit<LightContext, 'elevationM' | 'darkSkyMagArcsec2'> {
  /** Metres above sea level; `null` when the site is unknown. */
  readonly elevationM: number | null;
  /** Moonless sky at the zenith, magnitudes per square arcsecond; absent: a stated default. */
  readonly darkSkyMagArcsec2?: number;
  /** Lights with their verdicts and places in the sky, sorted by start. */
  readonly frames: readonly JudgedFrame[];
  readonly totals: readonly Total[];
  readonly curves: readonly TargetCurve[];
}

/** Frames and totals, with their worth where it can be told, and what it rests on. */
export interface Worthed {
  readonly frames: readonly JudgedFrame[];
  readonly totals: readonly Total[];
  readonly worth?: WorthAssessment;
}

/**
 * Assesses the worth of every light and every total. Without a site nothing is assessed, and frames and totals come
 * back as they were.
 */
export function assessWorth(input: WorthInput): Worthed {
  const { elevationM, frames, totals } = input;
  if (elevationM === null) return { frames, totals };
  const context: LightContext = {
    ...input,
    elevationM,
    darkSkyMagArcsec2: input.darkSkyMagArcsec2 ?? DEFAULT_DARK_SKY_MAG_ARCSEC2,
  };
  const groups = weighGroups(frames, context);
  const worths = new Map(groups.map((group) => [group.key, group.worth]));
  const byId = new Map(groups.flatMap((group) => group.frames.map((frame) => [frame.id, frame])));
  return {
    frames: frames.map((frame) => byId.get(frame.id) ?? frame),
    totals: totals.map((total) => {
      const worth = worths.get(totalKey(total));
      return worth ? { ...total, worth } : total;
    }),
    worth: {
      darkSkyMagArcsec2: context.darkSkyMagArcsec2,
      darkSkyFrom: input.darkSkyMagArcsec2 === undefined ? 'default' : 'rig-file',
      moonlight: input.curves.map((curve) => moonlightCurve(curve, context)),
      orders: filterOrders(groups),
      measures: [...new Set(groups.map(({ light }) => light))]
        .flatMap((light) => light.notes)
        .concat(groups.flatMap(({ notes }) => notes)),
      noises: [...new Set(groups.map(({ light }) => light))].map((light) => light.noise.note),
    },
  };
}

function weighGroups(frames: readonly JudgedFrame[], context: LightContext): Group[] {
  const lights = lightsOf(frames, context);
  const byTrain = groupBy(frames, (f) => f.train);
  return [...groupBy(frames, frameKey)].flatMap(([key, group]) => {
    const first = group[0];
    const light = first && lights.get(lightKey(first));
    return light ? [weighGroup(key, group, byTrain.get(light.train) ?? [], light, context.darkSkyMagArcsec2)] : [];
  });
}

/** Each target and train that was imaged through several filters, beside its best order of filters. */
function filterOrders(groups: readonly Group[]): FilterOrder[] {
  const exchangeable = groupBy(
    groups.filter(({ worth }) => worth !== null),
    ({ light, frames }) => JSON.stringify([light.train, frames[0]?.target]),
  );
  return [...exchangeable.values()].flatMap((members) => {
    const kept = members.flatMap(({ frames }) => frames.filter((f) => f.verdict === 'kept'));
    return (
      filterOrder(
        kept,
        members.map(({ light, referenceMs }) => ({ ...light, referenceSeconds: referenceMs / 1000 })),
      ) ?? []
    );
  });
}

/** Moonlight in V along a target's path. */
function moonlightCurve(
  { target, points }: TargetCurve,
  { model, elevationM, darkSkyMagArcsec2 }: LightContext,
): MoonlightCurve {
  const k = model.extinction(V_WAVELENGTH_NM, elevationM) ?? 0;
  return {
    target,
    points: points.flatMap((at) => {
      const sky = relativeSky(model, at, k, darkSkyMagArcsec2);
      return sky ? [{ atMs: at.atMs, brighteningMag: sky.moonBrighteningMag }] : [];
    }),
  };
}
