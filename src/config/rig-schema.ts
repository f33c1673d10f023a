/** The rig file's schema. Messages say what to write instead; the path and line are added by `rig-file.ts`. */
import { IANAZone } from 'luxon';
import { z } from 'zod';
import {
  DARKNESS_KINDS,
  DEFAULT_DARKNESS,
  listed,
  MOST_TRAINS,
  parseDeclinationDeg,
  parseRightAscensionDeg,
  RULE_NAMES,
  RULES,
  type Goals,
  type RuleKey,
} from '../model/index.js';
import { parseHours } from './durations.js';
import { mapping, number, text } from './fields.js';
import { site } from './site-schema.js';

const globs = z
  .union([text('a glob such as "frames/heron/**/*.fits"'), z.array(text('a glob'))], {
    error: 'must be a glob or a list of globs, such as [ "frames/heron/**/*.fits" ]',
  })
  .transform((value) => (Array.isArray(value) ? value : [value]));

const headerText = z.union([z.string(), z.number()]);

const logs = z
  .array(
    z.union(
      [
        text('a glob').transform((files) => ({ files: [files] })),
        z.object({ files: globs, dialect: text('the path of a dialect file').optional() }).loose(),
      ],
      { error: 'must be a glob or { files: "…", dialect: "…" }' },
    ),
    { error: 'must be a list, such as [ { files: "logs/heron*.jsonl" } ]' },
  )
  .default([]);

const hours = z
  .union([z.string(), z.number()], { error: 'must be hours, such as 12h or 1h30m' })
  .transform((value, ctx) => {
    const parsed = parseHours(value);
    if (parsed === null) {
      ctx.addIssue({ code: 'custom', message: `must be hours, such as 12h, 1h30m or 90m; got "${value}"` });
      return z.NEVER;
    }
    return parsed;
  });

const goals = z.record(z.string(), hours, { error: 'must be a map from filter to hours, such as { Ha: 12h }' });

/** The ways to state a target's goals; the archive's goals file has the same. */
export const goalsShape = {
  goals: goals.default({}),
  goalsPerTrain: z
    .record(z.string(), goals, { error: 'must be a map from train to goals, such as { heron: { Ha: 6h } }' })
    .default({}),
  goalRatio: z
    .object(
      {
        total: hours,
        parts: z
          .record(z.string(), number('a part of the whole', 0, 1000), {
            error: 'must be a map from filter to its part, such as { L: 3, R: 1 }',
          })
          .refine((parts) => Object.values(parts).some((part) => part > 0), 'must have a part above 0'),
      },
      { error: 'must be { total: 20h, parts: { L: 3, R: 1, G: 1, B: 1 } }' },
    )
    .loose()
    .optional(),
  goalTotal: hours.optional(),
};

type GoalsOutput = z.output<z.ZodObject<typeof goalsShape>>;

/** Goals as the model has them. */
export function toGoals(raw: GoalsOutput): Goals {
  return {
    hours: raw.goals,
    perTrain: raw.goalsPerTrain,
    ...(raw.goalRatio ? { ratio: { totalHours: raw.goalRatio.total, parts: raw.goalRatio.parts } } : {}),
    ...(raw.goalTotal === undefined ? {} : { totalHours: raw.goalTotal }),
  };
}

export const angle = <T>(parse: (value: string | number) => T | undefined, example: string) =>
  z
    .union([z.string(), z.number()], {
      error: (issue) => `${issue.input === undefined ? 'is missing: it ' : ''}must be ${example}`,
    })
    .transform((value, ctx) => {
      const degrees = parse(value);
      if (degrees === undefined) {
        ctx.addIssue({ code: 'custom', message: `must be ${example}; got "${value}"` });
        return z.NEVER;
      }
      return degrees;
    });

const ianaZone = text('an IANA time zone').refine((zone) => IANAZone.isValidZone(zone), {
  error: 'must be an IANA time zone, such as Europe/Madrid',
});

const train = z
  .object({
    id: text('a short name of the train').regex(
      /^[\p{L}\p{N}][\p{L}\p{N}_-]*$/u,
      'must be one word of letters, digits, - or _',
    ),
    role: z
      .enum(['pilot', 'companion'], { error: 'must be pilot (its computer steers the mount) or companion' })
      .optional(),
    telescope: z
      .object({
        focalLength: number('millimetres', 1, 50000).optional(),
        aperture: number('millimetres', 1, 20000).optional(),
      })
      .loose()
      .default({}),
    camera: z
      .object({
        pixelSize: number('micrometres', 0.1, 100).optional(),
        readNoise: number('electrons', 0, 1000).optional(),
        gain: number('electrons per ADU', 0.0001, 1000).optional(),
        darkCurrent: number('electrons per second and pixel', 0, 1000).optional(),
      })
      .loose()
      .default({}),
    throughput: number('electrons per photon, 0 to 1', 0.001, 1).optional(),
    filters: z
      .record(
        z.string(),
        z
          .object(
            {
              width: number('nanometres', 0.1, 1000).optional(),
              wavelength: number('nanometres', 300, 1100).optional(),
              zenithSky: number('electrons per second and pixel, without Moon', 0.00001, 100_000).optional(),
            },
            { error: 'must be a map such as { width: 3 }' },
          )
          .loose(),
      )
      .default({}),
    frames: globs.default([]),
    match: z
      .record(
        z.string(),
        z.union([headerText, z.array(headerText).min(1)], {
          error: 'must be text or a number to find in the header, or a list of them such as [ "old", "new" ]',
        }),
        {
          error: 'must be a map from FITS keyword to value, such as { TELESCOP: "…" }',
        },
      )
      .default({}),
    logs,
    headerTimeZone: ianaZone.optional(),
    zone: ianaZone.optional(),
    clockOffset: number('seconds that the computer is ahead', -86_400, 86_400).optional(),
  })
  .loose();

/** A right ascension in degrees, and whether it stood as a plain number. */
function writtenRa(value: string | number): { readonly deg: number; readonly isPlain: boolean } | undefined {
  const deg = parseRightAscensionDeg(value);
  return deg === undefined ? undefined : { deg, isPlain: Number(value) === deg };
}

const target = z
  .object({
    name: text('the name of the target'),
    aliases: z.array(text('another name of it')).default([]),
    // If both are missing, from the headers of its frames.
    ra: angle(writtenRa, 'a right ascension such as "00:52:59" (hours) or degrees as a number').optional(),
    dec: angle(parseDeclinationDeg, 'a declination such as "+56:37:19" or degrees as a number').optional(),
    ...goalsShape,
  })
  .loose();

/** One key for each rule of verdict, with its default. */
const rulesShape = Object.fromEntries(
  RULE_NAMES.map((name) => {
    const { key, what, low, high, default: usual } = RULES[name];
    return [key, number(what, low, high).default(usual)];
  }),
) as Record<RuleKey, z.ZodDefault<z.ZodNumber>>;

/** The schema of the rig file as written by the user. */
export const rigSchema = z
  .object({
    site: site.optional(),
    darkness: z.enum(DARKNESS_KINDS, { error: `must be ${listed(DARKNESS_KINDS, 'or')}` }).default(DEFAULT_DARKNESS),
    darkSky: number('magnitudes per square arcsecond at the zenith, without Moon', 10, 23).optional(),
    referenceSub: number('seconds', 1, 7200).optional(),
    trains: z
      .array(train, { error: 'must be a list with one entry per train' })
      .min(1, 'must name at least one train')
      .max(MOST_TRAINS, `must name at most ${MOST_TRAINS} trains`),
    guiding: z
      .object(
        {
          source: z.enum(['off-axis', 'guide-scope'], { error: 'must be off-axis or guide-scope' }),
          train: text('the id of the train that carries the off-axis guider').optional(),
          logs,
        },
        { error: mapping('{ source: off-axis, train: heron }') },
      )
      .loose()
      .optional(),
    targets: z.array(target, { error: 'must be a list of targets' }).default([]),
    filters: z
      .record(z.string(), z.array(text('a name the capture program uses')), {
        error: mapping('{ Ha: [H_Alpha] }, a filter and the names that programs use'),
      })
      .default({}),
    keywords: z.record(z.string(), globs, { error: mapping('{ starFwhm: [MYSTARS] }') }).default({}),
    rules: z
      .object(rulesShape, { error: mapping('{ motionGrace: 1 }') })
      .loose()
      .prefault({}),
  })
  .loose();

/** Keys each mapping of the rig file may have; anything else is reported as a likely slip of the pen. */
export const KNOWN_KEYS: Readonly<Record<string, readonly string[]>> = {
  '': Object.keys(rigSchema.shape),
  site: Object.keys(site.shape),
  'trains.*': Object.keys(train.shape),
  'trains.*.telescope': ['focalLength', 'aperture'],
  'trains.*.camera': ['pixelSize', 'readNoise', 'gain', 'darkCurrent'],
  'trains.*.filters.*': ['width', 'wavelength', 'zenithSky'],
  'trains.*.logs.*': ['files', 'dialect'],
  guiding: ['source', 'train', 'logs'],
  'guiding.logs.*': ['files', 'dialect'],
  'targets.*': Object.keys(target.shape),
  rules: Object.keys(rulesShape),
};

/** Mappings whose keys the user makes up. */
export const OPEN_MAPS: readonly string[] = ['trains.*.filters'];
