import { z } from 'zod';
import { END_EVENTS, EVENT_NAMES, FIELD_NAMES } from '../../model/index.js';
import { RECORD_FORMS } from './records/flatten-record.js';

const text = z.string().max(4000);
const pattern = z.string().min(1).max(2000);
const timePattern = z.string().min(1).max(200);
const scalar = z.union([z.string().max(2000), z.number(), z.boolean()]);

/** A cell pattern for each named column. */
const columnPatterns = z.record(z.string(), pattern);
const when = z.union([pattern, columnPatterns]);

const mappedValue = z.strictObject({
  from: text,
  map: z.record(z.string(), scalar),
  else: scalar.optional(),
});
const fieldValue = z.union([scalar, mappedValue]);

const time = z.strictObject({
  pattern: z.union([timePattern, z.array(timePattern).min(1).max(20)]),
  at: z.enum(['start', 'anywhere', 'end']).default('start'),
  zone: z.string().default('site'),
  date: z
    .union([
      z.enum(['line', 'session']),
      z.strictObject({ file: timePattern, evening: z.boolean().default(false) }),
      z.strictObject({
        header: pattern,
        pattern: timePattern,
        evening: z.boolean().default(false),
        year: z.union([z.literal('file'), z.int().min(1990).max(2200)]).optional(),
      }),
    ])
    .default('line'),
  evening: z.boolean().default(false),
  order: z.enum(['as-written', 'by-night']).default('as-written'),
  since: z.enum(['base', 'previous']).default('base'),
  ahead: z.number().min(-86_400).max(86_400).default(0),
  wraps: z.number().min(1).max(10_000_000).optional(),
  carry: z.boolean().default(false),
  caught: z.union([timePattern, z.array(timePattern).min(1).max(20)]).optional(),
});

const table = z.strictObject({
  delimiter: z.string().min(1).max(10),
  quote: z.string().length(1).default('"'),
  header: z.array(z.string()).min(1).max(200).optional(),
  columns: z.array(z.string()).min(1).max(200).optional(),
  starts: z.array(z.number().int().min(0).max(10_000)).min(1).max(200).optional(),
  each: z.array(z.string()).min(1).max(50).optional(),
  between: z.string().min(1).max(10).optional(),
  time: z.union([
    z.string(),
    z.array(z.string()).min(1).max(10),
    z.strictObject({ first: z.array(z.string()).min(1).max(20) }),
  ]),
});
/** One of several tables in a log. */
const oneOfTables = z.strictObject({
  ...table.shape,
  name: z.string().min(1).max(200).optional(),
  below: pattern.optional(),
  rows: pattern.optional(),
});
const csv = z.union([table, z.array(oneOfTables).min(1).max(50)]);

const records = z.strictObject({
  as: z.enum(RECORD_FORMS),
  time: z
    .union([
      z.string(),
      z.array(z.string()).min(1).max(5),
      z.strictObject({ first: z.array(z.string()).min(1).max(10) }),
    ])
    .optional(),
  join: z.string().min(1).max(200).optional(),
});

const jobs = z.strictObject({ begin: pattern, later: pattern });

const constant = z.union([
  z.string().max(2000),
  z.number(),
  z.strictObject({ when: pattern, default: z.union([z.string(), z.number()]).optional() }),
]);

const section = z.union([
  z.strictObject({
    begin: pattern,
    base: timePattern.optional(),
    end: pattern.optional(),
    sync: z.boolean().default(false),
    above: z.boolean().default(false),
  }),
  z.strictObject({ file: timePattern }),
  z.strictObject({ from: z.iso.datetime({ offset: true }) }),
]);

const eventName = z.enum(EVENT_NAMES);

/** What a rule makes of a line: events, their fields, train and times. */
const making = z.strictObject({
  event: z.union([eventName, z.array(eventName).min(1).max(40)]),
  fields: z.partialRecord(z.enum(FIELD_NAMES), fieldValue).default({}),
  train: text.optional(),
  at: z.partialRecord(eventName, z.string().min(1).max(200)).default({}),
  ago: text.optional(),
  lasted: text.optional(),
  lasts: text.optional(),
});

const line = z.strictObject({
  when,
  ...making.shape,
  also: z.array(making).max(20).default([]),
  closes: z.union([z.enum(END_EVENTS), z.array(z.enum(END_EVENTS)).min(1).max(20)]).optional(),
});

const guiding = z.strictObject({
  when: when.optional(),
  each: z.union([z.boolean(), z.literal('lists')]).default(false),
  list: z
    .strictObject({
      in: z.string().min(1).max(200),
      time: z.string().min(1).max(200).optional(),
      after: z.union([text, z.number()]).optional(),
      since: z.string().min(1).max(200).optional(),
    })
    .optional(),
  every: z.number().positive().max(3600).optional(),
  timed: z.enum(['first', 'last']).default('last'),
  ra: z.union([text, z.number()]),
  dec: z.union([text, z.number()]),
  snr: text.optional(),
});

/** The schema of a dialect file, version 1. docs/dialects.md explains every key. */
export const dialectSchema = z.strictObject({
  dialect: z.literal(1),
  name: z.string().max(200).optional(),
  encoding: z.string().default('auto'),
  decimal: z.enum(['.', ',']).default('.'),
  ignoreCase: z.boolean().default(false),
  doubled: z.boolean().default(false),
  time,
  entries: z
    .union([
      z.enum(['stamp', 'stamps', 'document', 'rows', 'sheet']),
      z.strictObject({ start: pattern }),
      z.strictObject({ objects: z.int().min(1).max(10) }),
    ])
    .optional(),
  jobs: jobs.optional(),
  csv: csv.optional(),
  records: records.optional(),
  states: z
    .union([
      z.array(z.string().min(1).max(200)).min(1).max(100),
      z.strictObject({ of: z.string().min(1).max(200), state: z.string().min(1).max(200) }),
      z.strictObject({ when: pattern }),
    ])
    .optional(),
  train: z.union([text, z.strictObject({ file: pattern })]).optional(),
  trains: z.record(z.string(), z.string()).default({}),
  constants: z.record(z.string(), constant).default({}),
  sections: z.array(section).max(20).default([]),
  lines: z.array(line).max(500).default([]),
  ignore: z.array(when).max(500).default([]),
  guiding: guiding.optional(),
});

/** A dialect file as read: every default filled in. */
export type DialectFile = z.output<typeof dialectSchema>;
/** A table as read: the only one, or one of several. */
export type TableFile = z.output<typeof table> & Partial<z.output<typeof oneOfTables>>;
/** One rule of `lines` as read. */
export type LineFile = DialectFile['lines'][number];
/** What a rule makes of its lines, or one of its additional events, as read. */
export type MakingFile = z.output<typeof making>;
/** The value of a field in a rule, as read. */
export type FieldValueFile = z.output<typeof fieldValue>;
