/** The replay in a night's record: how reliable it is, and what other rules would have kept. */
import { z } from 'zod';

const seconds = z.number().min(0).describe('seconds');
const signed = z.number().describe('seconds, less than nothing for a loss');

const outcome = z
  .record(
    z.string(),
    z.strictObject({ kept: seconds, lostOrDoubtful: z.number().min(0).describe('frames not kept'), waited: seconds }),
  )
  .describe('per train; means over the runs');
const whatIf = z.strictObject({
  id: z.string(),
  title: z.string(),
  settings: z.array(z.string()).describe('the changed rules, as `replay --set` takes them'),
  gainSeconds: signed.describe('kept integration gained, all trains together, mean'),
  gainRange: z.tuple([signed, signed]).describe('10th and 90th percentile'),
  trains: outcome,
  outside: z.array(z.string()).optional().describe('why it is not advised; empty within the limits of docs/replay.md'),
  newDarks: z.array(z.string()).optional().describe('sub lengths that need darks of their own'),
});

export const replaySchema = z.strictObject({
  error: z
    .number()
    .nullable()
    .describe('(replayed − kept) ÷ kept integration of the night’s own rules; null when nothing was kept'),
  confidence: z.enum(['high', 'medium', 'low']),
  runs: z.number().int().min(1),
  asItWas: outcome,
  whatIfs: z.array(whatIf),
  best: whatIf.nullable(),
});

export type ReplayRecord = z.infer<typeof replaySchema>;
