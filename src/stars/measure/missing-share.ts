/** Fraction of a band without numbers. */
import type { Band } from '../pixels/bands.js';

/** From every seventh sample. */
export function missingShare({ samples }: Band): number {
  if (samples instanceof Int16Array) return 0;
  let missing = 0;
  let looked = 0;
  for (let i = 0; i < samples.length; i += 7, looked++) if (Number.isNaN(samples[i])) missing++;
  return missing / looked;
}
