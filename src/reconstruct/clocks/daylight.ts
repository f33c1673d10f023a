/**
 * Offsets excluded by the sky: those under which lights would have been taken in daylight, or of a field below the
 * horizon.
 */
import type { HeaderFrame } from '../../model/index.js';

/** Whether no light can have been taken of this frame's field at an instant, UTC ms. */
export type LightSky = (header: HeaderFrame, atMs: number) => boolean;

/** Fewer impossible lights than this may be tests at dusk. Common practice, no source. */
const FEWEST = 3;
const LEAST_SHARE = 0.02;
/** A sample spread over the night, to limit the cost for nights with thousands of frames. */
const MOST_LIGHTS = 200;

/**
 * Determines whether the right time cannot be this far ahead of the reference.
 *
 * @param lights with their midpoints on the reference's clock
 */
export function excludedBySky(
  lights: readonly { readonly header: HeaderFrame; readonly atMs: number }[],
  isImpossible: LightSky | undefined,
): (aheadMs: number) => boolean {
  if (!isImpossible) return () => false;
  const step = Math.max(1, Math.ceil(lights.length / MOST_LIGHTS));
  const looked = lights.filter((_, i) => i % step === 0);
  return (aheadMs) => {
    const impossible = looked.filter(({ header, atMs }) => isImpossible(header, atMs + aheadMs)).length;
    return impossible >= FEWEST && impossible >= LEAST_SHARE * looked.length;
  };
}
