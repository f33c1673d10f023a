/**
 * What only records in an archive carry.
 */
import { z } from 'zod';
import { DARKNESS_KINDS, HOURS } from '../model/index.js';

const degrees = z.number().describe('degrees');
const maybe = <T extends z.ZodType>(type: T) => type.nullable();

const hours = z.record(z.string(), z.number().min(0).max(HOURS.to)).describe('hours per filter');
const horizonPoint = z.tuple([degrees, degrees]).describe('azimuth and altitude, degrees');

/** What only records in an archive carry; a report's own `night.json` never does. */
export const archived = z.strictObject({
  session: z.string().describe('what the archive knows the session folder by'),
  report: maybe(z.string()).describe('path of the night’s report.html, relative to the archive'),
  darkness: z.enum(DARKNESS_KINDS).describe('the twilight asked for'),
  minimumAltitude: degrees.optional(),
  horizon: z.array(horizonPoint).optional(),
  goals: z.array(
    z.strictObject({
      name: z.string(),
      aliases: z.array(z.string()),
      ra: degrees,
      dec: degrees,
      hours,
      perTrain: z.record(z.string(), hours).optional(),
      ratio: z
        .strictObject({ totalHours: z.number().min(0), parts: z.record(z.string(), z.number().min(0)) })
        .optional(),
      totalHours: z.number().min(0).optional(),
    }),
  ),
});
