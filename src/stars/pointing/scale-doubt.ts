/** Pixel scales that the stars of two trains contradict: a wrong focal length or pixel size, an unstated reducer. */
import type { PairPointing, Warning } from '../../model/index.js';

/** Focal lengths as stated are right to some per cent: spacing and temperature. Common practice, no source. */
const OFF = 1.05;
/** Fewer stars may agree by chance. */
const FEWEST_STARS = 12;

/**
 * A warning where two trains' stars on one field give another ratio of their pixels than the rig does.
 *
 * @param scales arcsec per pixel as stored, by the rig or the headers alone, by train
 */
export function scaleDoubts(pairs: readonly PairPointing[], scales: ReadonlyMap<string, number>): Warning[] {
  return pairs.flatMap(({ trains: [one, other], scaleRatio, matched, target }): Warning[] => {
    const [first, second] = [scales.get(one), scales.get(other)];
    if (first === undefined || second === undefined || matched < FEWEST_STARS) return [];
    const stated = first / second;
    if (Math.abs(Math.log(scaleRatio / stated)) <= Math.log(OFF)) return [];
    return [
      {
        code: 'scale-contradicted',
        message:
          `by ${matched} stars of ${target}, a pixel of ${one} is as wide on the sky as ${scaleRatio.toFixed(2)} of ` +
          `${other}; focal lengths and pixel sizes make it ${stated.toFixed(2)}. One of them is wrong (a reducer, ` +
          'another camera, binning), and with it that train’s arcseconds: set focalLength and pixelSize in the rig ' +
          'file',
        train: other,
      },
    ];
  });
}
