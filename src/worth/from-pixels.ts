/**
 * Levels and fluxes from the pixels, replacing those in headers. Within a train and filter both come from one source: a
 * header's level is another program's, and not comparable.
 */
import { groupBy, ownValue, type FrameStars, type JudgedFrame, type NightStars } from '../model/index.js';
import { lightKey } from './light.js';
import { secondsOf } from './settings.js';

/** With fewer measured frames headers, or the model, are better. */
const ENOUGH_FRAMES = 5;

/**
 * The lights with their pixel measurements, and the trains and filters for which these are used; by {@link lightKey}.
 */
export interface PixelLights {
  readonly lights: readonly JudgedFrame[];
  readonly level: ReadonlySet<string>;
  readonly flux: ReadonlySet<string>;
}

/** Puts measured levels and fluxes where the headers' stood. */
export function withPixels(lights: readonly JudgedFrame[], stars: NightStars | null): PixelLights {
  if (stars === null) return { lights, level: new Set(), flux: new Set() };
  const enough = (says: (one: FrameStars) => boolean): Set<string> =>
    new Set(
      [...groupBy(lights, lightKey)].flatMap(([key, group]) => {
        const measured = group.filter(({ id }) => {
          const one = ownValue(stars.frames, id);
          return one !== undefined && says(one);
        });
        return measured.length >= ENOUGH_FRAMES ? [key] : [];
      }),
    );
  // With the cap on, or nothing but cloud, there is no sky.
  const level = enough(({ count }) => count > 0);
  const flux = enough((one) => one.flux !== null);
  return {
    level,
    flux,
    lights: lights.map((frame) => {
      const key = lightKey(frame);
      if (frame.header?.kind !== 'light' || (!level.has(key) && !flux.has(key))) return frame;
      const own = ownValue(stars.frames, frame.id);
      return {
        ...frame,
        header: {
          ...frame.header,
          ...(level.has(key) ? { backgroundAdu: own?.background } : {}),
          // A ratio of equal exposures, if a header states a sum.
          ...(flux.has(key) ? { starFluxAdu: own?.flux == null ? undefined : own.flux * secondsOf(frame) } : {}),
        },
      };
    }),
  };
}
