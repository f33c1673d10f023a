/** Clocks in `night.json`: with the sign of the word 'ahead', in seconds. */
import { z } from 'zod';

export const clockSchema = z.strictObject({
  train: z.string(),
  source: z.enum(['headers', 'log']),
  aheadSeconds: z.number().describe('seconds that this clock is ahead of the time the report keeps; negative: behind'),
  uncertaintySeconds: z.number().min(0),
  corrected: z.boolean().describe('whether its times were shifted by that, or a step was taken out'),
  stepSeconds: z.number().optional().describe('it was set forward by so much in the night, which was corrected'),
  by: z.string().describe('what tells'),
  known: z.boolean().describe('false: another offset is not excluded, and times are left as written'),
  absolute: z.boolean().describe('false: where clocks differ, nothing tells which one is right'),
});

/** One clock of the night. */
export type ClockRecord = z.infer<typeof clockSchema>;
