/** Stars and pairs of trains in `night.json`. */
import { z } from 'zod';

const degrees = z.number().describe('degrees');

const starShift = z.strictObject({
  x: z.number().describe('pixels of the reference frame'),
  y: z.number(),
  rotation: degrees,
  matched: z.number().int().min(0),
});

/** What the pixels of a frame say. */
export const starsSchema = z
  .strictObject({
    by: z.enum(['full', 'strips']),
    count: z.number().int().min(0),
    fwhm: z.number().nullable().describe('pixels'),
    fwhmUncertainty: z.number().nullable(),
    halfFlux: z.number().nullable().describe('pixels'),
    elongation: z.number().nullable().describe('a/b, 1 for a round star'),
    direction: degrees.nullable(),
    uncertainties: z
      .strictObject({
        halfFlux: z.number().nullable(),
        elongation: z.number().nullable(),
        direction: degrees.nullable(),
        background: z.number().nullable(),
        noise: z.number().nullable(),
        flux: z.number().nullable(),
      })
      .describe('standard errors, each in its figure’s unit')
      .optional(),
    agreement: z.number().nullable().describe('0 (directions any way) to 1 (all one way)'),
    background: z.number().describe('ADU'),
    noise: z.number().describe('ADU'),
    electronsPerSecond: z
      .strictObject({
        background: z.number().describe('per pixel, less the header’s pedestal where it states one'),
        noise: z.number().describe('per pixel'),
      })
      .optional()
      .describe('where electrons per ADU are known'),
    flux: z.number().nullable().describe('relative to the best third of its group'),
    doubled: z
      .strictObject({
        x: z.number().describe('sensor pixels from each star to its fainter image'),
        y: z.number(),
        share: z.number().describe('of the light in the fainter image'),
        significance: z.number().describe('height above all other offsets, in their spread'),
      })
      .optional()
      .describe('every star appears twice'),
    saturated: z.number().describe('share of the read pixels'),
    shift: starShift.nullable(),
  })
  .describe('what its pixels say');

/** How two trains on the same field are aligned. */
export const pairSchema = z.strictObject({
  target: z.string(),
  trains: z.tuple([z.string(), z.string()]),
  scaleRatio: z.number(),
  rotation: degrees,
  offsetArcsec: z.number(),
  overlap: z.record(z.string(), z.number()),
  flexureArcsecPerHour: z.number().nullable(),
  matched: z.number().int().min(0),
});
