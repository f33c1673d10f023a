/** A night's summary as a file of an archive: untrusted like the record next to it. */
import {
  ACCOUNTS,
  DARKNESS_KINDS,
  HOURS,
  isPlausibleInstant,
  MAX_TEXT,
  type Account,
  type ArchivedSite,
  type EffectiveReference,
  type Goals,
  type Interval,
  type NightSummary,
  type PairSummary,
  type SubsTaken,
  type TrainSummary,
} from '../../model/index.js';
import {
  byKey,
  fields,
  isBoolean,
  isNumber,
  listOf,
  oneOf,
  optional,
  orNull,
  pairOf,
  upTo,
  within,
  type Guard,
} from './guards.js';

/**
 * Version of the summarising method. Increment with any change that gives the same record another summary: a test holds
 * the summaries of the sample records.
 */
export const SUMS_FORMAT = 'nightledger/sums/2';

/** The summary next to a record, counted by exposure time. */
export interface KeptSums {
  readonly format: typeof SUMS_FORMAT;
  /** SHA-256 of the record's file, hexadecimal. */
  readonly record: string;
  /** First and last begin of its frames. */
  readonly begins: readonly [first: string, last: string];
  readonly night: NightSummary;
}

const DATE = /^\d{4}-\d{2}-\d{2}$/;

const isText = upTo(MAX_TEXT);
const isSize = within(0);
const isCount = (value: unknown): value is number => Number.isSafeInteger(value) && isSize(value);
const isDate = (value: unknown): value is string => typeof value === 'string' && DATE.test(value);
const perText = byKey(isText, isSize);
const isInstant = (value: unknown): value is number => isNumber(value) && isPlausibleInstant(value);

const isEndingLater = fields<Interval>({ startMs: isInstant, endMs: isInstant });
const isSpan = (value: unknown): value is Interval => isEndingLater(value) && value.startMs <= value.endMs;
const isTally = fields<NightSummary['totals'][number]['ms']>({
  taken: isSize,
  kept: isSize,
  doubtful: isSize,
  lost: isSize,
});
const place = { name: isText, aliases: listOf(isText), raDeg: isNumber, decDeg: isNumber };
const perFilter = byKey(isText, within(0, HOURS.to));

const isSite = fields<ArchivedSite>({
  name: orNull(isText),
  latitudeDeg: within(-90, 90),
  longitudeDeg: within(-360, 360),
  elevationM: optional(isNumber),
  timezone: isText,
  minimumAltitudeDeg: optional(isNumber),
  horizon: listOf(pairOf(isNumber)),
  darkness: oneOf(DARKNESS_KINDS),
});

const isTrain = fields<TrainSummary>({
  id: isText,
  role: oneOf(['pilot', 'companion']),
  pixelScaleArcsec: optional(isNumber),
  accountsMs: byKey<Account, number>(oneOf(ACCOUNTS), isSize),
  guidingRmsArcsec: orNull(isNumber),
  starSize: orNull(isNumber),
  starFwhmArcsec: optional(isNumber),
  ditherWaitMs: orNull(isNumber),
  apertureMm: optional(isSize),
  betweenSubsMs: optional(orNull(isNumber)),
});

const isGoals = fields<Goals>({
  hours: perFilter,
  perTrain: byKey(isText, perFilter),
  ratio: optional(fields<NonNullable<Goals['ratio']>>({ totalHours: isSize, parts: perText })),
  totalHours: optional(isSize),
});

/** The same counted by effective hours: on a separate line, for those who request them. */
export const isSummary: Guard<NightSummary> = fields<NightSummary>({
  file: isText,
  date: isDate,
  site: orNull(isSite),
  window: isSpan,
  isDarkness: isBoolean,
  used: orNull(isSpan),
  trains: listOf(isTrain),
  targets: listOf(fields<NightSummary['targets'][number]>(place)),
  goals: listOf(fields<NightSummary['goals'][number]>({ ...place, goals: isGoals })),
  totals: listOf(
    fields<NightSummary['totals'][number]>({
      target: isText,
      filter: isText,
      train: isText,
      frames: isTally,
      ms: isTally,
    }),
  ),
  pairs: listOf(
    fields<PairSummary>({
      trains: pairOf(isText),
      offsetArcsec: isNumber,
      rotationDeg: isNumber,
      scaleRatio: isNumber,
      flexureArcsecPerHour: orNull(isNumber),
    }),
  ),
  subs: listOf(fields<SubsTaken>({ train: isText, filter: isText, seconds: isSize, frames: isCount })),
  ditherMs: orNull(isNumber),
  keptWithoutEffective: isCount,
  effectiveReference: orNull(
    fields<EffectiveReference>({
      subSeconds: isSize,
      darkSkyMagArcsec2: isNumber,
      zenithSkies: optional(perText),
    }),
  ),
  headersOnly: isBoolean,
  report: orNull(isText),
});

export const isKeptSums: Guard<KeptSums> = fields<KeptSums>({
  format: oneOf([SUMS_FORMAT]),
  record: isText,
  begins: pairOf(isText),
  night: isSummary,
});
