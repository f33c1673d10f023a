/**
 * Offsets that the sky forbids: those by which lights would have been taken in daylight, or of a field below the
 * horizon.
 */
import type { HeaderFrame } from '../../model/index.js';

/** Whether no light can have been taken of this frame's field at an instant, UTC ms. */
export type LightSky = (header: HeaderFrame, atMs: number) => boolean;

/** Fewer impossible lights than this may be tests at dusk. Common practice, no source. */
const FEWEST = 3;
const LEAST_SHARE = 0.02;
/** Looked at, spread over the night, lest a night of thousands of frames cost seconds. */
const MOST_LIGHTS = 200;

/**
 * Tells whether the right time cannot be so far ahead of the reference.
 *
 * @param lights with their middles by the reference's clock
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
