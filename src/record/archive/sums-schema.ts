/** A night's sums as a file of an archive has them: untrusted like the record they stand beside. */
import { z } from 'zod';
import {
  ACCOUNTS,
  DARKNESS_KINDS,
  EARLIEST_YEAR,
  HOURS,
  isPlausibleInstant,
  LATEST_YEAR,
  MAX_TEXT,
  type Interval,
  type NightSummary,
} from '../../model/index.js';

/**
 * The way in which records are summed up. To be raised with whatever makes the same record come to other sums: a test
 * holds the sums of the sample records.
 */
export const SUMS_FORMAT = 'nightledger/sums/2';

/** What stands beside a record, counted by the clock. */
export interface KeptSums {
  readonly format: typeof SUMS_FORMAT;
  /** SHA-256 of the record's file, hexadecimal. */
  readonly record: string;
  /** First and last begin of its frames. */
  readonly begins: readonly [first: string, last: string];
  readonly night: NightSummary;
}

const text = z.string().max(MAX_TEXT);
const number = z.number();
const size = z.number().min(0);
const count = z.number().int().min(0);
const perKey = z.record(text, size);
const instantMs = z.number().refine(isPlausibleInstant, `must be of the years ${EARLIEST_YEAR} to ${LATEST_YEAR}`);

const span: z.ZodType<Interval> = z
  .object({ startMs: instantMs, endMs: instantMs })
  .refine(({ startMs, endMs }) => startMs <= endMs, 'must not end before it begins');
const tally = z.object({ taken: size, kept: size, doubtful: size, lost: size });
const place = { name: text, aliases: z.array(text), raDeg: number, decDeg: number };
const hours = z.record(text, z.number().min(0).max(HOURS.to));

const site = z.object({
  name: text.nullable(),
  latitudeDeg: z.number().min(-90).max(90),
  longitudeDeg: z.number().min(-360).max(360),
  elevationM: number.optional(),
  timezone: text,
  minimumAltitudeDeg: number.optional(),
  horizon: z.array(z.tuple([number, number])),
  darkness: z.enum(DARKNESS_KINDS),
});

const train = z.object({
  id: text,
  role: z.enum(['pilot', 'companion']),
  pixelScaleArcsec: number.optional(),
  accountsMs: z.partialRecord(z.enum(ACCOUNTS), size),
  guidingRmsArcsec: number.nullable(),
  starSize: number.nullable(),
  starFwhmArcsec: number.optional(),
  ditherWaitMs: number.nullable(),
  apertureMm: size.optional(),
  betweenSubsMs: number.nullable().optional(),
});

const goals = z.object({
  hours,
  perTrain: z.record(text, hours),
  ratio: z.object({ totalHours: size, parts: perKey }).optional(),
  totalHours: size.optional(),
});

/** The same counted by effective hours: a line of its own, for those who ask for them. */
export const summarySchema: z.ZodType<NightSummary> = z.object({
  file: text,
  date: z.string().regex(/^\d{4}-\d{2}-\d{2}$/),
  site: site.nullable(),
  window: span,
  isDarkness: z.boolean(),
  used: span.nullable(),
  trains: z.array(train),
  targets: z.array(z.object(place)),
  goals: z.array(z.object({ ...place, goals })),
  totals: z.array(z.object({ target: text, filter: text, train: text, frames: tally, ms: tally })),
  pairs: z.array(
    z.object({
      trains: z.tuple([text, text]),
      offsetArcsec: number,
      rotationDeg: number,
      scaleRatio: number,
      flexureArcsecPerHour: number.nullable(),
    }),
  ),
  subs: z.array(z.object({ train: text, filter: text, seconds: size, frames: count })),
  ditherMs: number.nullable(),
  keptWithoutEffective: count,
  effectiveReference: z
    .object({ subSeconds: size, darkSkyMagArcsec2: number, zenithSkies: perKey.optional() })
    .nullable(),
  headersOnly: z.boolean(),
  report: text.nullable(),
});

export const sumsSchema: z.ZodType<KeptSums> = z.object({
  format: z.literal(SUMS_FORMAT),
  record: z.string(),
  begins: z.tuple([text, text]),
  night: summarySchema,
});
