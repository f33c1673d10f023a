/** The effective seconds of a total in a record: their basis, and their bounds. */
import { z } from 'zod';
import { WORTH_DOUBTS } from '../model/index.js';

const seconds = z.number().min(0).describe('seconds');

const origin = z.enum(['measured', 'modelled', 'mixed']);
export const effectiveBasis = z.strictObject({
  sky: origin.describe('background levels in the headers, or a model of a clear moonlit sky'),
  transparency: origin.describe('flux of the same stars in the headers, or extinction of a clear sky'),
  noise: z.enum(['read-noise', 'sky-limited']).describe('sky-limited: read noise or sky in electrons unknown'),
  referenceSeconds: seconds.describe('length of the reference frame'),
  zenithSky: z
    .number()
    .min(0)
    .nullable()
    .optional()
    .describe('electrons per second and pixel of the moonless zenith sky that is counted against; null when not known'),
  zenithFrom: z
    .enum(['rig-file', 'model', 'night'])
    .optional()
    .describe('night: its own, so that hours of other nights are not to be added'),
});

export const effectiveRange = z
  .strictObject({ low: seconds, high: seconds, doubts: z.array(z.enum(WORTH_DOUBTS)) })
  .describe('dark-equivalent seconds at least and at most, and what leaves room between');
