/**
 * The night record, `nightledger/night/1`: the JSON that other programs and the archive read. Seconds are numbers,
 * instants RFC 3339 in UTC. The published JSON Schema (`schema/night-1.schema.json`) is made from this file.
 */
import { z } from 'zod';
import { archived } from './archived.js';
import { clockSchema } from './clocks.js';
import {
  ACCOUNTS,
  CAUSE_KINDS,
  EVIDENCE_KINDS,
  EXPOSURE_SECONDS,
  VERDICT_KINDS,
  WINDOW_KINDS,
} from '../model/index.js';
import { effectiveBasis, effectiveRange } from './effective.js';
import { keptSchema } from './parts/index.js';
import { findingSchema } from './finding.js';
import { replaySchema } from './replay.js';
import { SCHEMA_ID } from './schema-id.js';
import { pairSchema, starsSchema } from './stars.js';

/** No exposure is longer than a day; a longer one is an error or worse. */
export const MAX_EXPOSURE_SECONDS = EXPOSURE_SECONDS.to;

const instant = z.iso.datetime({ offset: false }).describe('RFC 3339, UTC');
const seconds = z.number().min(0).describe('seconds');
const degrees = z.number().describe('degrees');
const maybe = <T extends z.ZodType>(type: T) => type.nullable();

const tally = z.strictObject({
  taken: z.number().int().min(0),
  kept: z.number().int().min(0),
  doubtful: z.number().int().min(0),
  lost: z.number().int().min(0),
});
const secondsTally = z.strictObject({ taken: seconds, kept: seconds, doubtful: seconds, lost: seconds });

const cause = z.strictObject({
  kind: z.enum(CAUSE_KINDS),
  by: z.enum(EVIDENCE_KINDS).optional().describe('the evidence that decided; absent in older records'),
  from: instant,
  to: instant,
  overlapSeconds: seconds,
  causedBy: z.string().optional(),
  evidence: z.string(),
});

const clearance = z.strictObject({
  kind: z.enum(CAUSE_KINDS),
  by: z.enum(EVIDENCE_KINDS).describe('what cleared it'),
  evidence: z.string(),
});

const frame = z.strictObject({
  file: maybe(z.string()).describe('relative path; null when the log tells of a frame whose file is missing'),
  identity: z
    .string()
    .optional()
    .describe('SHA-256 over the exposure’s header cards: the frame’s identity when files move'),
  train: z.string(),
  target: maybe(z.string()),
  filter: maybe(z.string()),
  begin: instant,
  seconds: seconds.max(MAX_EXPOSURE_SECONDS),
  verdict: z.enum(VERDICT_KINDS),
  causes: z.array(cause),
  cleared: z.array(clearance).optional().describe('causes that better evidence has set aside'),
  stars: maybe(starsSchema).optional(),
  moonSeparation: maybe(degrees),
  moonAltitude: maybe(degrees),
  altitude: maybe(degrees),
  airmass: maybe(z.number()),
  guidingRms: maybe(z.number()).optional().describe('arcseconds, total of both axes'),
  starSize: maybe(z.number()).optional().describe('pixels, as the header has it'),
  starFwhm: maybe(z.number())
    .optional()
    .describe('arcseconds: FWHM of its stars, from the pixels, else from the header; null when not known'),
  effectiveSeconds: maybe(seconds)
    .optional()
    .describe(
      'dark-equivalent seconds: its exposure as a share of a reference frame under a dark sky at the ' +
        'zenith, regardless of the verdict; null when unknown',
    ),
  effectiveFrom: z
    .enum(['measured', 'modelled'])
    .optional()
    .describe('measured: sky and transparency both come from levels and star fluxes'),
  moonBrightening: maybe(z.number().min(0))
    .optional()
    .describe(
      'magnitudes per square arcsecond by which moonlight brightens the sky at the target, modelled ' +
        'for a clear sky; 0 with the Moon down',
    ),
});

const sessionRecordSchema = z.strictObject({
  schema: z.literal(SCHEMA_ID),
  generator: z.strictObject({ name: z.string(), version: z.string() }),
  night: z.string().regex(/^\d{4}-\d{2}-\d{2}$/),
  site: maybe(
    z.strictObject({
      name: maybe(z.string()),
      latitude: degrees,
      longitude: degrees,
      elevation: maybe(z.number()).describe('metres'),
      timezone: z.string(),
    }),
  ),
  window: z.strictObject({
    start: instant,
    end: instant,
    kind: z.enum([...WINDOW_KINDS, 'activity']),
    note: z.string().optional(),
  }),
  trains: z.array(
    z.strictObject({
      id: z.string(),
      role: z.enum(['pilot', 'companion']),
      pixelScale: z.number().optional().describe('arcseconds per pixel'),
      aperture: z.number().min(0).optional().describe('free aperture, millimetres'),
    }),
  ),
  targets: z.array(
    z.strictObject({ name: z.string(), aliases: z.array(z.string()).optional(), ra: degrees, dec: degrees }),
  ),
  headersOnly: z.boolean(),
  totals: z.array(
    z.strictObject({
      target: z.string(),
      filter: z.string(),
      train: z.string(),
      frames: tally,
      seconds: secondsTally,
      effectiveSeconds: maybe(seconds)
        .optional()
        .describe(
          'dark-equivalent seconds of the kept frames; null when not known. Not to be added up over filters or trains',
        ),
      moonCostSeconds: maybe(seconds)
        .optional()
        .describe('dark-equivalent seconds that moonlight took from the kept frames'),
      effectiveBasis: effectiveBasis.optional(),
      effectiveRange: effectiveRange.optional(),
    }),
  ),
  ledger: z.array(z.strictObject({ train: z.string(), account: z.enum(ACCOUNTS), seconds })),
  idle: z
    .array(
      z.strictObject({
        train: z.string(),
        twilight: seconds.describe('not dark enough for the filter'),
        low: seconds.describe('dark enough, but the target below its limit'),
        before: seconds.describe('unused before the first exposure'),
        after: seconds.describe('unused after the last exposure'),
        between: seconds.describe('between exposures, for a reason that no log tells'),
      }),
    )
    .optional()
    .describe('where in the night the ledger’s unexplained time lies'),
  dithers: z.array(
    z.strictObject({
      begin: instant,
      waits: z.record(z.string(), seconds),
      holder: maybe(z.string()),
      moveSeconds: seconds,
      settleSeconds: maybe(seconds),
      inferred: z.boolean().optional(),
    }),
  ),
  frames: z.array(frame),
  pairs: z.array(pairSchema).optional().describe('how the fields of two trains lie on each other'),
  clocks: z.array(clockSchema).optional(),
  sky: maybe(
    z.strictObject({
      sunset: maybe(instant),
      sunrise: maybe(instant),
      dusk: maybe(instant),
      dawn: maybe(instant),
      moon: z.strictObject({ illumination: z.number().min(0).max(1), rise: maybe(instant), set: maybe(instant) }),
    }),
  ),
  referenceSub: seconds
    .optional()
    .describe('length of the frame that effective seconds are counted in; one for the rig, on all nights'),
  darkSky: z
    .strictObject({ magnitude: z.number(), assumed: z.boolean() })
    .optional()
    .describe(
      'moonless sky at the zenith, V magnitudes per square arcsecond, that effective seconds are computed from',
    ),
  findings: z.array(findingSchema),
  notAssessed: z.array(z.strictObject({ id: z.string(), title: z.string(), missing: z.string() })).optional(),
  replay: replaySchema.optional(),
  warnings: z.array(
    z.strictObject({
      code: z.string(),
      message: z.string(),
      source: z.string().optional(),
      count: z.number().int().optional(),
    }),
  ),
  archive: archived.optional(),
  stages: keptSchema.optional(),
});

/** Validates a night record; unknown fields are rejected so that mistakes show in the tests. */
export const nightRecordSchema = sessionRecordSchema.extend({
  parts: z
    .array(sessionRecordSchema)
    .optional()
    .describe('in an archive, where a night stands on several sessions: the record of each'),
});

/** A night in `night.json`. */
export type NightRecord = z.infer<typeof nightRecordSchema>;

/** The record of one session; a night of several has one for each. */
export type SessionRecord = z.infer<typeof sessionRecordSchema>;

export type FrameRecord = SessionRecord['frames'][number];
