/**
 * The stars of a whole night: its lights with pixels measured, and what only the night's other frames can show about
 * one.
 */
import { statSync } from 'node:fs';
import { join } from 'node:path';
import type { CameraFacts, Frame, GatheredNight, NightStars, Timeline } from '../model/index.js';
import { withoutReflections } from './always-doubled.js';
import { measureStars } from './measure-stars.js';
import { type MeasuredLight, type PointingNight, pointingOf, registerLights } from './pointing/index.js';
import { comparedStars } from './compared-stars.js';
import { isMeasured, type FrameToMeasure, type MeasureOptions } from './types.js';

/** Location of a night's pixels, and how to measure them. */
export interface NightPixels extends MeasureOptions {
  /** Absolute path of the session folder. */
  readonly root: string;
  /** Whether pictures are made of them. */
  readonly pictures?: boolean;
}

/** Below this many pixels along an axis a picture has no star field: thumbnails, drawn samples. */
const SIDE_MIN_PX = 64;

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
  const found = withoutReflections(
    wanted.flatMap(({ frame, toMeasure }): MeasuredLight[] => {
      const one = measured.get(toMeasure.id);
      return one !== undefined && isMeasured(one) ? [{ frame, measured: one }] : [];
    }),
  );
  const registered = registerLights(found);
  const electrons = new Map(wanted.map(({ frame, toMeasure }) => [frame.id, toMeasure.electronsPerAdu]));
  const pointing = pointingOf(registered, night);
  const compared = comparedStars(found, registered, electrons);
  return { ...pointing, frames: compared.frames, warnings: [...warnings, ...pointing.warnings, ...compared.warnings] };
}

/** The input for measuring a frame; `undefined` if it has no pixels worth reading. */
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
    // A file belongs to one frame only, and says more in a warning than a frame's id.
    id: file,
    path,
    // A file removed since its header was read is reported by the measurement.
    sizeBytes: stat?.size ?? header.sizeBytes,
    changedMs: stat?.mtimeMs ?? 0,
    binning,
    electronsPerAdu: header.electronsPerAdu ?? camera?.gainElectronsPerAdu,
    saturationAdu,
    bayerPattern,
  };
}
