/**
 * What only the night's other frames can show about one: its flux relative to the best of its group, its registration,
 * and whether its light is that of the filter it names.
 */
import { counted, durationMs, groupBy, type Frame, type FrameStars, type Warning } from '../model/index.js';
import type { FluxRatio } from './match-stars.js';
import { type GroupedFrame, takenThroughOther } from './other-filter.js';
import type { MeasuredLight, RegisteredLights } from './pointing/index.js';
import { isAmong } from './registration/index.js';
import { relativeFlux } from './relative-flux.js';
import type { FluxFrame } from './types.js';

/** Frames as compared within the night. */
export interface Compared {
  /** By frame id. */
  readonly frames: Record<string, FrameStars>;
  readonly warnings: readonly Warning[];
}

/**
 * A frame exposed for less than this fraction of the requested time gathered less light for reasons other than the sky.
 */
const CUT_SHARE = 0.95;

/** A light with the basis of its flux comparison: the stars without sensor artefacts, and their registration. */
interface FluxLight {
  readonly light: MeasuredLight;
  readonly frame: FluxFrame;
  /** Key of comparable frames: the same optics, field, filter, exposure and camera settings. */
  readonly group: string;
  /** The same except for the filter. */
  readonly alike: string;
}

/** Frames of a separate field that are too few for a best third. */
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
  // A frame that could not be registered to any field is compared with the largest: under cloud and dew a frame has too
  // few stars, and two such frames may only match one another.
  const isAlone = field === undefined || field.frames.length < FIELD_FRAMES_MIN;
  const reference = isAlone ? own?.fields[0]?.reference : field.reference;
  const shift = laid?.reference === reference ? (laid?.shift ?? null) : null;
  const stars = measured.list.stars.filter((star) => !isAmong(star, own?.fixed ?? []));
  const alike = JSON.stringify([
    ...[train, target, seconds],
    ...[header?.gain, header?.binning?.x, header?.binning?.y, reference],
  ]);
  return {
    light,
    frame: { list: { ...measured.list, stars }, shift },
    group: JSON.stringify([filter, alike]),
    alike,
  };
}

/**
 * By frame id: each frame's shift, and its flux relative to the best of its group; and notes on groups whose frames are
 * of two kinds.
 */
export function comparedStars(
  lights: readonly MeasuredLight[],
  registered: RegisteredLights,
  electrons: ReadonlyMap<string, number | undefined>,
): Compared {
  const flux = new Map<Frame, FluxRatio | null>();
  const takenThrough = new Map<Frame, string>();
  const warnings: Warning[] = [];
  const compare = (group: readonly FluxLight[]): void => {
    const ratios = relativeFlux(group.map(({ frame }) => frame));
    group.forEach(({ light }, i) => flux.set(light.frame, ratios[i] ?? null));
  };
  const compared = lights.map((light) => fluxLight(light, registered));
  const groups = [...groupBy(compared, (one) => one.group).values()];
  groups.forEach(compare);
  for (const group of groups) {
    const like = groups.filter((other) => other !== group && other[0]?.alike === group[0]?.alike);
    for (const other of like) {
      const grouped = (one: FluxLight): GroupedFrame => groupedFrame(one, flux.get(one.light.frame)?.ratio ?? null);
      const isOther = takenThroughOther(group.map(grouped), other.map(grouped));
      const name = other[0]?.light.frame.filter;
      if (isOther === null || name === undefined) continue;
      const others = group.filter((_, i) => isOther[i]);
      for (const { light } of others) takenThrough.set(light.frame, name);
      warnings.push(otherFilter(group, others, name));
      compare(others);
      compare(group.filter((_, i) => !isOther[i]));
      break;
    }
  }
  const frames = Object.fromEntries(
    lights.map(({ frame, measured }) => [
      frame.id,
      {
        ...withFluxOf(measured.stars, flux.get(frame) ?? null),
        ...electronRates({ frame, measured }, electrons.get(frame.id)),
        ...(takenThrough.has(frame) ? { takenThrough: takenThrough.get(frame) } : {}),
        shift: registered.shifts.get(frame.id)?.shift ?? null,
      },
    ]),
  );
  return { frames, warnings };
}

function groupedFrame({ light, frame }: FluxLight, ratio: number | null): GroupedFrame {
  const { background } = light.measured.stars;
  return { startMs: light.frame.exposure.startMs, frame, ratio, backgroundAdu: background };
}

function otherFilter(group: readonly FluxLight[], others: readonly FluxLight[], name: string): Warning {
  const files = others.flatMap(({ light }) => light.frame.file ?? []);
  const { train, filter = 'no filter' } = others[0]!.light.frame;
  return {
    code: 'other-filter',
    message:
      `${counted(others.length, 'frame')} of ${train} that ${others.length === 1 ? 'names' : 'name'} ${filter} ` +
      `(${files[0]} to ${files.at(-1)}) ${others.length === 1 ? 'has' : 'have'} the starlight and the sky of its ` +
      `frames through ${name}, unlike the other ${group.length - others.length} that name ${filter}: the filter ` +
      'wheel may not have turned. Each kind is compared with its own; look at them before stacking, and at ' +
      'the wheel before the next night',
    train,
  };
}

function withFluxOf(stars: FrameStars, flux: FluxRatio | null): FrameStars {
  const { uncertainties } = stars;
  return {
    ...stars,
    flux: flux?.ratio ?? null,
    ...(uncertainties === undefined ? {} : { uncertainties: { ...uncertainties, flux: flux?.uncertainty ?? null } }),
  };
}

/** Level and noise in electrons per second, if the gain is known. */
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
