/**
 * Focal lengths that the headers state and the rig file contradicts: a pattern that finds another train's frames, or a
 * reducer that one of the two does not know. The image scale, and with it every limit in pixels, depends on it.
 */
import type { TrainConfig } from '../config/index.js';
import { groupBy, median, type Warning } from '../model/index.js';
import { decimal } from '../vocabulary/index.js';
import type { TrainFrame } from './assign-trains.js';

/** Nominal and measured focal lengths differ by less than this share. Common practice, no source. */
const TOLERANCE = 0.1;

/** One warning per train whose lights state another focal length than its entry in the rig file. */
export function opticsWarnings(trains: readonly TrainConfig[], frames: readonly TrainFrame[]): Warning[] {
  const lights = groupBy(
    frames.filter(({ kind }) => kind === 'light'),
    ({ train }) => train,
  );
  return trains.flatMap(({ id, focalLengthMm }): Warning[] => {
    const stating = (lights.get(id) ?? []).filter((frame) => frame.focalLengthMm !== undefined);
    const [first] = stating;
    if (focalLengthMm === undefined || first === undefined) return [];
    const statedMm = median(stating.flatMap((frame) => frame.focalLengthMm ?? []));
    if (isNear(statedMm, focalLengthMm)) return [];
    const [other] = trains.flatMap((train) =>
      train.id !== id && train.focalLengthMm !== undefined && isNear(statedMm, train.focalLengthMm)
        ? [`${train.id} has ${lengthText(train.focalLengthMm)}`]
        : [],
    );
    return [
      {
        code: 'focal-lengths-differ',
        message:
          `the headers of ${id} state a focal length of ${lengthText(statedMm)}, the rig file ` +
          `${lengthText(focalLengthMm)}, which counts here: image scale and limits in pixels rest on it. ` +
          (other === undefined
            ? 'Correct the one that is wrong'
            : `${other}: check whose frames the pattern of ${id} finds`),
        source: { file: first.file },
        train: id,
        count: stating.length,
      },
    ];
  });
}

function isNear(statedMm: number, knownMm: number): boolean {
  return Math.abs(statedMm / knownMm - 1) <= TOLERANCE;
}

function lengthText(mm: number): string {
  return `${decimal(mm, 0)} mm`;
}
