/**
 * The stars of a whole night: its lights with pixels measured, and what only the night's other frames can say of one.
 */
import { statSync } from 'node:fs';
import { join } from 'node:path';
import {
  durationMs,
  groupBy,
  type CameraFacts,
  type Frame,
  type FrameStars,
  type GatheredNight,
  type NightStars,
  type Timeline,
} from '../model/index.js';
import { measureStars } from './measure-stars.js';
import {
  type MeasuredLight,
  type PointingNight,
  pointingOf,
  registerLights,
  type RegisteredLights,
} from './pointing/index.js';
import type { FluxRatio } from './match-stars.js';
import { isAmong } from './registration/index.js';
import { relativeFlux } from './relative-flux.js';
import { type FluxFrame, isMeasured, type FrameToMeasure, type MeasureOptions } from './types.js';

/** Where a night's pixels are, and how to measure them. */
export interface NightPixels extends MeasureOptions {
  /** Absolute path of the session folder. */
  readonly root: string;
  /** Whether pictures are made of them. */
  readonly pictures?: boolean;
}

/** Below this many pixels along an axis a picture has no field of stars: thumbnails, drawn samples. */
const SIDE_MIN_PX = 64;

/** A frame open for less than this share of what was asked gathered less light through no fault of the sky. */
const CUT_SHARE = 0.95;

/**
 * Measures the night's lights that have files. Frames that cannot be measured are left out, with a warning.
 *
 * @returns measurements by frame id; `flux` is relative to the best third of the same train, target, filter and
 *   exposure
 */
export async function starsOfNight(
  night: PointingNight & {
    readonly gathered: Pick<GatheredNight, 'cameras'>;
    readonly timeline: Pick<Timeline, 'frames'>;
  },
  pixels: NightPixels,
): Promise<NightStars> {
  const lights = night.timeline.frames.filter((frame) => frame.kind === 'light');
  const wanted = lights.flatMap((frame) => {
    const toMeasure = frameToMeasure(frame, night.gathered.cameras, pixels.root);
    return toMeasure === undefined ? [] : [{ frame, toMeasure }];
  });
  const { measured, warnings } = await measureStars(
    wanted.map(({ toMeasure }) => toMeasure),
    pixels,
  );
  const found = wanted.flatMap(({ frame, toMeasure }): MeasuredLight[] => {
    const one = measured.get(toMeasure.id);
    return one !== undefined && isMeasured(one) ? [{ frame, measured: one }] : [];
  });
  const registered = registerLights(found);
  const electrons = new Map(wanted.map(({ frame, toMeasure }) => [frame.id, toMeasure.electronsPerAdu]));
  const pointing = pointingOf(registered, night);
  return { ...pointing, frames: withFlux(found, registered, electrons), warnings: [...warnings, ...pointing.warnings] };
}

/** What measuring a frame needs; `undefined` where it has no pixels worth reading. */
export function frameToMeasure(
  { file, header, train }: Frame,
  cameras: readonly CameraFacts[],
  root: string,
): FrameToMeasure | undefined {
  if (file === undefined || header === undefined) return undefined;
  const { width, height, binning, saturationAdu, bayerPattern } = header;
  if (Math.min(width ?? Infinity, height ?? Infinity) < SIDE_MIN_PX) return undefined;
  const path = join(root, file);
  const stat = statSync(path, { throwIfNoEntry: false });
  const camera = cameras.find(({ id }) => id === train);
  return {
    // A file is one frame's alone, and says more in a warning than a frame's id.
    id: file,
    path,
    // A file that has gone since its header was read is said so by the measuring.
    sizeBytes: stat?.size ?? header.sizeBytes,
    changedMs: stat?.mtimeMs ?? 0,
    binning,
    electronsPerAdu: header.electronsPerAdu ?? camera?.gainElectronsPerAdu,
    saturationAdu,
    bayerPattern,
  };
}

/** A light with what its flux is compared by: the stars without what stays on the sensor, and where they lie. */
interface FluxLight {
  readonly light: MeasuredLight;
  readonly frame: FluxFrame;
  /** Names those it may be compared with: the same optics, field, filter, exposure and camera settings. */
  readonly group: string;
}

/** Frames of a field of their own that are too few for a best third of it. */
const FIELD_FRAMES_MIN = 3;

function fluxLight(light: MeasuredLight, { shifts, groups }: RegisteredLights): FluxLight {
  const { frame, measured } = light;
  const { train, target, filter, askedMs, exposure, header } = frame;
  const takenMs = durationMs(exposure);
  const isCut = askedMs !== undefined && takenMs < CUT_SHARE * askedMs;
  const seconds = Math.round((isCut ? takenMs : (askedMs ?? takenMs)) / 1000);
  const own = groups.find(({ lights }) => lights.includes(light));
  const laid = shifts.get(frame.id);
  const field = own?.fields.find(({ reference }) => reference === laid?.reference);
  // What could not be laid on any field is held against the largest: under cloud and dew a frame has too few stars, and
  // two of them may agree with one another alone.
  const isAlone = field === undefined || field.frames.length < FIELD_FRAMES_MIN;
  const reference = isAlone ? own?.fields[0]?.reference : field.reference;
  const shift = laid?.reference === reference ? (laid?.shift ?? null) : null;
  const stars = measured.list.stars.filter((star) => !isAmong(star, own?.fixed ?? []));
  return {
    light,
    frame: { list: { ...measured.list, stars }, shift },
    group: JSON.stringify([
      ...[train, target, filter, seconds],
      ...[header?.gain, header?.binning?.x, header?.binning?.y, reference],
    ]),
  };
}

/** By frame id: each frame's shift, and its flux relative to the best of its group. */
function withFlux(
  lights: readonly MeasuredLight[],
  registered: RegisteredLights,
  electrons: ReadonlyMap<string, number | undefined>,
): Record<string, FrameStars> {
  const flux = new Map<Frame, FluxRatio | null>();
  const compared = lights.map((light) => fluxLight(light, registered));
  for (const group of groupBy(compared, (one) => one.group).values()) {
    const ratios = relativeFlux(group.map(({ frame }) => frame));
    group.forEach(({ light }, i) => flux.set(light.frame, ratios[i] ?? null));
  }
  return Object.fromEntries(
    lights.map((light) => [
      light.frame.id,
      {
        ...withFluxOf(light.measured.stars, flux.get(light.frame) ?? null),
        ...electronRates(light, electrons.get(light.frame.id)),
        shift: registered.shifts.get(light.frame.id)?.shift ?? null,
      },
    ]),
  );
}

function withFluxOf(stars: FrameStars, flux: FluxRatio | null): FrameStars {
  const { uncertainties } = stars;
  return {
    ...stars,
    flux: flux?.ratio ?? null,
    ...(uncertainties === undefined ? {} : { uncertainties: { ...uncertainties, flux: flux?.uncertainty ?? null } }),
  };
}

/** Level and noise in electrons per second, where it is known what an ADU is worth. */
function electronRates(
  { frame: { exposure, header }, measured: { stars } }: MeasuredLight,
  electronsPerAdu: number | undefined,
): Pick<FrameStars, 'electronsPerSecond'> {
  const seconds = durationMs(exposure) / 1000;
  if (electronsPerAdu === undefined || !(seconds > 0)) return {};
  const perSecond = electronsPerAdu / seconds;
  return {
    electronsPerSecond: {
      background: (stars.background - (header?.pedestalAdu ?? 0)) * perSecond,
      noise: stars.noise * perSecond,
    },
  };
}
