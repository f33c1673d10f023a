/** The stars of a whole night: its lights with pixels measured, and what only the night's other frames can say of one. */
import { statSync } from 'node:fs';
import { join } from 'node:path';
import {
  groupBy,
  type CameraFacts,
  type Frame,
  type FrameStars,
  type GatheredNight,
  type NightStars,
  type Timeline,
} from '../model/index.js';
import { measureStars } from './index.js';
import { relativeFlux } from './relative-flux.js';
import { isMeasured, type FrameToMeasure, type MeasuredFrame, type MeasureOptions } from './types.js';

/** Where a night's pixels are, and how to measure them. */
export interface NightPixels extends MeasureOptions {
  /** Absolute path of the session folder. */
  readonly root: string;
}

/** Below this many pixels along an axis a picture has no field of stars: thumbnails, drawn samples. */
const SIDE_MIN_PX = 64;

/** A light and its measurement. */
interface MeasuredLight {
  readonly frame: Frame;
  readonly measured: MeasuredFrame;
}

/**
 * Measures the night's lights that have files. Frames that cannot be measured are left out, with a warning.
 *
 * @returns measurements by frame id; `flux` is relative to the best third of the same train, target, filter and exposure
 */
export async function starsOfNight(
  night: { readonly gathered: Pick<GatheredNight, 'cameras'>; readonly timeline: Pick<Timeline, 'frames'> },
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
  return { frames: withFlux(found), pairs: [], warnings };
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

/** Frames whose star fluxes may be compared: the same optics, field, filter, exposure and camera settings. */
function fluxGroup({ frame: { train, target, filter, askedMs, exposure, header } }: MeasuredLight): string {
  const seconds = Math.round((askedMs ?? exposure.endMs - exposure.startMs) / 1000);
  return JSON.stringify([train, target, filter, seconds, header?.gain, header?.binning?.x, header?.binning?.y]);
}

/** By frame id. */
function withFlux(lights: readonly MeasuredLight[]): Record<string, FrameStars> {
  const flux = new Map<Frame, number | null>();
  for (const group of groupBy(lights, fluxGroup).values()) {
    const ratios = relativeFlux(group.map(({ measured }) => ({ list: measured.list, shift: measured.stars.shift })));
    group.forEach(({ frame }, i) => flux.set(frame, ratios[i] ?? null));
  }
  return Object.fromEntries(
    lights.map(({ frame, measured }) => [frame.id, { ...measured.stars, flux: flux.get(frame) ?? null }]),
  );
}
