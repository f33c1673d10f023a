/**
 * The worth of the night: every light relative to the same exposure under a dark sky at the zenith. The sky functions
 * are passed in.
 */
import { DEFAULT_DARK_SKY_MAG_ARCSEC2, DEFAULT_REFERENCE_SUB_SECONDS } from '../config/index.js';
import {
  elevationOf,
  calibrationOf,
  groupBy,
  groupByAll,
  itemAt,
  UNNAMED,
  type FilterOrder,
  type JudgedFrame,
  type MeasureNote,
  type MoonlightCurve,
  type Night,
  type TargetCurve,
  type WorthAssessment,
} from '../model/index.js';
import { withPixels, type PixelLights } from './from-pixels.js';
import { filterOrder } from './filter-order.js';
import { frameKey, weighGroup, type Group } from './group.js';
import { narrowInstead } from './narrow-instead.js';
import { lightKey, lightsOf, type LightContext } from './light.js';
import { usualExposureMs } from './settings.js';
import { extinctionInV } from './band.js';
import { relativeSky, type SkyModel } from './sky-model.js';

export type { SkyModel } from './sky-model.js';

/**
 * Assesses the worth of every light and every total.
 *
 * @returns `null` where the site is unknown
 */
export function assessWorth(
  night: Pick<Night, 'gathered' | 'timeline' | 'sky' | 'stars' | 'accounts'>,
  model: SkyModel,
): WorthAssessment | null {
  const { site, trains, cameras, darkSkyMagArcsec2, referenceSubSeconds } = night.gathered;
  if (site === null) return null;
  const context: LightContext = {
    elevationM: elevationOf(site),
    darkSkyMagArcsec2: darkSkyMagArcsec2 ?? DEFAULT_DARK_SKY_MAG_ARCSEC2,
    referenceMs: (referenceSubSeconds ?? DEFAULT_REFERENCE_SUB_SECONDS) * 1000,
    trains,
    cameras,
    calibration: calibrationOf(night),
    model,
  };
  const seen = withPixels(night.accounts.lights, night.stars);
  const groups = weighGroups(seen.lights, context);
  const lights = [...new Set(groups.map(({ light }) => light))];
  return {
    frames: Object.fromEntries(
      groups.flatMap(({ frames }) => frames.flatMap(({ id, worth }) => (worth ? [[id, worth] as const] : []))),
    ),
    totals: Object.fromEntries(groups.flatMap(({ key, worth }) => (worth ? [[key, worth] as const] : []))),
    darkSkyMagArcsec2: context.darkSkyMagArcsec2,
    darkSkyFrom: darkSkyMagArcsec2 === undefined ? 'default' : 'rig-file',
    referenceMs: context.referenceMs,
    referenceFrom: referenceSubSeconds === undefined ? 'default' : 'rig-file',
    moonlight: night.sky.curves.map((curve) => moonlightCurve(curve, context)),
    orders: filterOrders(groups, context.referenceMs / 1000),
    instead: narrowInstead(night.accounts.lights, context),
    measures: lights
      .flatMap(({ notes }) => notes)
      .concat(groups.flatMap(({ notes }) => notes))
      .map((note) => fromPixels(note, seen)),
    noises: lights.map(({ noise }) => noise.note),
  };
}

function fromPixels(note: MeasureNote, seen: PixelLights): MeasureNote {
  if (note.measure === 'star-count' || !seen[note.measure].has(lightKey(note))) return note;
  return { ...note, how: `measured in the pixels, ${note.how}` };
}

function weighGroups(frames: readonly JudgedFrame[], context: LightContext): Group[] {
  const lights = lightsOf(frames, context);
  const byTrain = groupBy(frames, (f) => f.train);
  const alike = groupByAll(frames, ({ target, filter, train }) => [target ?? UNNAMED, filter ?? UNNAMED, train]);
  return alike.flatMap((group) => {
    const first = itemAt(group, 0);
    const light = lights.get(lightKey(first));
    return light ? [weighGroup(frameKey(first), group, byTrain.get(light.train) ?? [], light, context)] : [];
  });
}

/** Each target and train imaged through several filters, compared with its best order of filters. */
function filterOrders(groups: readonly Group[], referenceSeconds: number): FilterOrder[] {
  const exchangeable = groupBy(
    groups.filter(({ worth }) => worth !== null),
    ({ light, frames }) => JSON.stringify([light.train, frames[0]?.target]),
  );
  return [...exchangeable.values()].flatMap((members) => {
    const kept = members.flatMap(({ frames }) => frames.filter((f) => f.verdict === 'kept'));
    return (
      filterOrder(
        kept,
        members.map(({ light, frames }) => ({
          ...light,
          referenceSeconds,
          subSeconds: usualExposureMs(frames) / 1000,
        })),
      ) ?? []
    );
  });
}

/** Moonlight in V along a target's path. */
function moonlightCurve(
  { target, points }: TargetCurve,
  { model, elevationM, darkSkyMagArcsec2 }: LightContext,
): MoonlightCurve {
  const skyAt = relativeSky(model, extinctionInV(model, elevationM), darkSkyMagArcsec2);
  return {
    target,
    points: points.flatMap((at) => {
      const sky = skyAt(at);
      return sky ? [{ atMs: at.atMs, brighteningMag: sky.moonBrighteningMag }] : [];
    }),
  };
}
