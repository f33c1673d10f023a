/** A finding in the record. */
import { z } from 'zod';

const seconds = z.number().min(0).describe('seconds');

export const findingSchema = z.strictObject({
  id: z.string(),
  title: z.string(),
  costSeconds: seconds,
  evidence: z.array(z.string()),
  advice: z.string(),
  winSeconds: seconds.optional(),
  price: z
    .string()
    .optional()
    .describe('what it cost, or would win, where that is no time: pixels on a sub, % of the field'),
  frames: z.number().int().min(0).optional(),
  confidence: z.enum(['high', 'medium', 'low']).optional(),
  isFirst: z.literal(true).optional().describe('to be put right before anything that is counted in minutes'),
  newDarks: z.array(z.string()).optional().describe('sub lengths that the advice needs new darks for'),
  caution: z.string().optional().describe('to be heeded where the advice is followed'),
});
