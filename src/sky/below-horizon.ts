/** Lights of a target below the horizon: its coordinates, the site or a clock is wrong. */
import { groupBy, type Frame, type SkyPosition, type Warning } from '../model/index.js';

/** A field's centre lower than this is hidden by the Earth, whatever refraction adds, degrees. */
export const BELOW_HORIZON_DEG = -1;
/** Fewer lights than this may be slips of a header. */
const MIN_FRAMES = 3;

/**
 * Reports targets that were imaged where nothing can be seen.
 *
 * @param positions at mid-exposure, by frame id
 */
export function belowHorizonWarnings(
  lights: readonly Frame[],
  positions: ReadonlyMap<string, Pick<SkyPosition, 'altitudeDeg'>>,
): Warning[] {
  return [...groupBy(lights, ({ target }) => target)].flatMap(([target, own]): Warning[] => {
    const altitudes = own.flatMap(({ id }) => positions.get(id)?.altitudeDeg ?? []);
    const hidden = altitudes.filter((deg) => deg < BELOW_HORIZON_DEG);
    if (hidden.length < MIN_FRAMES || target === undefined) return [];
    return [
      {
        code: 'lights-below-horizon',
        message:
          `${hidden.length} of ${own.length} lights of ${target} are below the horizon, down to ` +
          `${degrees(Math.min(...hidden))}: the target’s coordinates, the site (look at the signs of latitude and ` +
          'longitude) or a clock is wrong. So are altitudes here, and what follows from them',
        source: own[0]?.sources[0],
        count: hidden.length,
      },
    ];
  });
}

function degrees(value: number): string {
  return `${value.toFixed(0).replace('-', '−')}°`;
}
