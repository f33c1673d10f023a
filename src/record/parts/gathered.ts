/** What was gathered, field by field. */
import { z } from 'zod';
import type {
  CameraFacts,
  GatheredNight,
  Goals,
  GuideSource,
  GuidingSeries,
  InputFile,
  Site,
  TargetGoals,
  Train,
} from '../../model/index.js';
import {
  DEFAULT_RULES,
  MOST_GOALS,
  MOST_TRAINS,
  RULE_NAMES,
  type RuleName,
  type Rules,
} from '../../vocabulary/index.js';
import { count, file, number, positive, source, text, warning } from './common.js';
import { coarse, hidden, list, maybe, open, optional, part, type Field } from './field.js';

/** Whole degrees, in steps of ten, given by their middle: 45° N for anything from 40° to 50°. */
const SITE_CELL_DEG = 10;
const ELEVATION_STEP_M = 500;

const middleOfCell = (value: number): number => Math.floor(value / SITE_CELL_DEG) * SITE_CELL_DEG + SITE_CELL_DEG / 2;

const toStep = (value: number, step: number): number => Math.round(value / step) * step + 0;

/** The middle of the square of ten degrees around a location, its elevation to 500 m: the shared form of a site. */
export function squareOf({ latitudeDeg, longitudeDeg, elevationM }: PlaceOnEarth): PlaceOnEarth {
  return {
    latitudeDeg: sharedLatitude(latitudeDeg),
    longitudeDeg: middleOfCell(longitudeDeg),
    ...(elevationM === undefined ? {} : { elevationM: sharedElevation(elevationM) }),
  };
}

type PlaceOnEarth = Pick<Site, 'latitudeDeg' | 'longitudeDeg' | 'elevationM'>;

const sharedLatitude = (value: number): number => Math.min(85, middleOfCell(value));
const sharedElevation = (value: number): number => toStep(value, ELEVATION_STEP_M);

const degrees = z.number().min(-360).max(360);
const site = part<Site>({
  name: hidden(text, ''),
  latitudeDeg: coarse(z.number().min(-90).max(90), sharedLatitude),
  longitudeDeg: coarse(degrees, middleOfCell),
  elevationM: optional(coarse(number, sharedElevation)),
  // The shared clock counts from the night's first exposure, and has no zone.
  timezone: hidden(text, 'UTC'),
  minimumAltitudeDeg: hidden(degrees, 0),
  horizon: hidden(z.array(z.tuple([degrees, degrees])), []),
});

const train = part<Train>({
  id: open(text),
  role: open(z.enum(['pilot', 'companion'])),
  focalLengthMm: optional(open(positive)),
  apertureMm: optional(open(positive)),
  pixelSizeUm: optional(open(positive)),
  pixelScaleArcsec: optional(open(positive)),
});

const byFilter = z.record(z.string(), positive);
const camera = part<CameraFacts>({
  id: open(text),
  readNoiseElectrons: optional(open(positive)),
  gainElectronsPerAdu: optional(open(positive)),
  darkCurrentElectronsPerSecond: optional(open(positive)),
  filterWidthsNm: open(byFilter),
  filterWavelengthsNm: open(byFilter),
  filterZenithSkies: hidden(byFilter.optional(), undefined),
  throughput: optional(open(positive)),
});

const guideSource = part<GuideSource>({
  source: open(z.enum(['off-axis', 'guide-scope', 'unknown'])),
  train: optional(open(text)),
});

const goals = part<Goals>({
  hours: open(byFilter),
  perTrain: open(z.record(z.string(), byFilter)),
  ratio: optional(open(z.object({ totalHours: positive, parts: byFilter }))),
  totalHours: optional(open(positive)),
});

const targetGoals = part<TargetGoals>({
  name: open(text),
  aliases: open(z.array(text)),
  raDeg: open(degrees),
  decDeg: open(degrees),
  goals,
});

/** Rules are public numbers; one missing in an older record has the default. */
const rules = part<Rules>(
  Object.fromEntries(RULE_NAMES.map((name) => [name, open<number>(positive.default(DEFAULT_RULES[name]))])) as Readonly<
    Record<RuleName, Field<number>>
  >,
);

const column = z.instanceof(Float64Array);
const copied = coarse<Float64Array>(column, (values) => values);
const guiding = part<GuidingSeries>({
  atMs: coarse<Float64Array>(column, (values, how) => values.map(how.instant)),
  raArcsec: copied,
  decArcsec: copied,
  snr: copied,
  sources: list(source),
});

const input = part<InputFile>({
  file,
  role: open(z.enum(['frame', 'event-log', 'guiding-log', 'rig-file', 'dialect'])),
  train: optional(open(text)),
  sizeBytes: hidden(count, 0),
  // A fingerprint can be tested against guesses.
  sha256: hidden(text.optional(), undefined),
  lines: optional(open(count)),
  understood: optional(open(count)),
});

export const gathered = part<GatheredNight>({
  site: maybe(site),
  darkness: open(z.enum(['civil', 'nautical', 'astronomical'])),
  darkSkyMagArcsec2: hidden(number.optional(), undefined),
  referenceSubSeconds: optional(open(positive)),
  trains: list(train, MOST_TRAINS),
  cameras: list(camera, MOST_TRAINS),
  guideSource,
  goals: list(targetGoals, MOST_GOALS),
  rules,
  guiding: maybe(guiding),
  inputs: list(input),
  warnings: list(warning),
});
