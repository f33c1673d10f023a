/**
 * The shape of a finding module: one file, one registry line, one test of the same name.
 */
import {
  calibrationOf,
  contradictsTimes,
  weighedTotals,
  type Finding,
  type Interval,
  type NightFacts,
  type JudgedFrame,
} from '../model/index.js';

const someHeader = (night: NightFacts, has: (frame: JudgedFrame) => boolean): boolean =>
  night.accounts.lights.some(has);

const hasFocusSizes = (night: NightFacts) =>
  night.timeline.activities.some((a) => a.kind === 'focus' && a.facts?.sizeBefore !== undefined) ||
  someHeader(night, (f) => f.header?.starSize !== undefined);

const hasSizedStars = (night: NightFacts) =>
  Object.values(night.stars?.frames ?? {}).some((f) => f.fwhm !== null) ||
  someHeader(night, (f) => f.header?.starSize !== undefined);

/** What a finding may require of the night, and how to say that it is missing. */
export const NEEDS = {
  'two-trains': { missing: 'a second train', has: (night: NightFacts) => night.gathered.trains.length >= 2 },
  dithers: { missing: 'dithers in the log', has: (night: NightFacts) => night.accounts.dithers.length > 0 },
  settling: {
    missing: 'settling after dithers in the log',
    has: (night: NightFacts) => night.accounts.dithers.some((d) => d.settle !== undefined),
  },
  'event-log': { missing: 'an event log', has: (night: NightFacts) => !night.timeline.headersOnly },
  'guiding-events': {
    missing: 'guiding events in a log',
    has: (night: NightFacts) => night.timeline.activities.some((a) => a.kind.startsWith('guiding-')),
  },
  'guiding-samples': {
    missing: 'a guiding log with samples',
    has: (night: NightFacts) => night.gathered.guiding !== null,
  },
  'pixel-scales': {
    missing: 'focal length and pixel size',
    has: (night: NightFacts) => night.gathered.trains.some((t) => t.pixelScaleArcsec !== undefined),
  },
  refocuses: {
    missing: 'refocuses in the log',
    has: (night: NightFacts) => night.timeline.activities.some((a) => a.kind === 'focus'),
  },
  'focus-sizes': {
    missing: 'star sizes at the refocuses or in the headers',
    has: hasFocusSizes,
  },
  'sized-refocuses': {
    missing: 'star sizes at the refocuses, in the headers or measured in the pixels',
    has: (night: NightFacts) => hasFocusSizes(night) || hasSizedStars(night),
  },
  'star-sizes': {
    missing: 'star sizes in the headers',
    has: (night: NightFacts) => someHeader(night, (f) => f.header?.starSize !== undefined),
  },
  'sized-stars': {
    missing: 'star sizes, in the headers or measured in the pixels',
    has: hasSizedStars,
  },
  'measured-stars': {
    missing: 'stars measured in the pixels',
    has: (night: NightFacts) => Object.values(night.stars?.frames ?? {}).some((f) => f.fwhm !== null),
  },
  'focus-positions': {
    missing: 'focuser positions in the headers',
    has: (night: NightFacts) => someHeader(night, (f) => f.header?.focusPosition !== undefined),
  },
  temperatures: {
    missing: 'sensor and set temperatures in the headers',
    has: (night: NightFacts) =>
      someHeader(night, (f) => f.header?.sensorTemperatureC !== undefined && f.header.setTemperatureC !== undefined),
  },
  calibration: {
    missing: 'calibration frames in the session folder',
    has: (night: NightFacts) => calibrationOf(night).length > 0,
  },
  sky: { missing: 'the site', has: (night: NightFacts) => night.sky.almanac !== null },
  'times-by-the-sky': {
    missing: 'times that fit the sky (lights are dated in daylight)',
    has: (night: NightFacts) => !contradictsTimes(night.sky),
  },
  'target-place': {
    missing: 'the site and the targets’ coordinates',
    has: (night: NightFacts) => night.sky.curves.length > 0,
  },
  'pair-geometry': {
    missing: 'stars measured in frames of two trains on one field',
    has: (night: NightFacts) => (night.stars?.pairs ?? []).length > 0,
  },
  'pair-flexure': {
    missing: 'stars measured in frames of one field that two trains took at the same time',
    has: (night: NightFacts) => (night.stars?.pairs ?? []).some(({ flexure }) => flexure !== null),
  },
  'dither-places': {
    missing: 'stars measured in frames of one field at three or more dither positions',
    has: (night: NightFacts) => (night.stars?.pointings ?? []).some(({ dithers }) => dithers !== null),
  },
  'frame-rotations': {
    missing: 'stars measured in at least six frames of one field',
    has: (night: NightFacts) => (night.stars?.pointings ?? []).some(({ rotation }) => rotation !== null),
  },
  lights: { missing: 'lights', has: (night: NightFacts) => night.accounts.lights.length > 0 },
  worth: {
    missing: 'the site, the targets’ coordinates and kept frames',
    has: (night: NightFacts) => weighedTotals(night).length > 0,
  },
  'read-noise': {
    missing:
      'the read noise, and either aperture, pixel scale and filter width in the rig file or background levels ' +
      'in the headers',
    has: (night: NightFacts) => weighedTotals(night).some((t) => t.worth.sub !== null),
  },
} as const satisfies Record<string, { missing: string; has: (night: NightFacts) => boolean }>;
export type Need = keyof typeof NEEDS;

/** A finding's thresholds: plain numbers, so that they can be printed and configured. */
export type Thresholds = Readonly<Record<string, number>>;

/** A span of one train's time. */
export interface TrainSpan {
  readonly train: string;
  readonly span: Interval;
}

/** A finding as returned by its module. */
export interface FindingDraft extends Omit<Finding, 'id'> {
  /** The train time behind its cost: overlapping claims of two findings are counted once. Absent: it claims none. */
  readonly minutes?: readonly TrainSpan[];
  /** Keeps its minutes before costlier findings: the cause of what they count, corrected at no price. */
  readonly claimsFirst?: boolean;
  /** The replayed rule that its gain comes from: several findings may share it. */
  readonly rule?: { readonly id: string; readonly gainMs: number };
  /**
   * The advice when the finding is folded into a costlier one that already says most of it; absent: its usual advice.
   */
  readonly foldedAdvice?: string;
}

/** One question asked of every night. `find` is called only if all requirements are met. */
export interface FindingModule<T extends Thresholds = Thresholds> {
  /** The file's name and the test's name. */
  readonly id: string;
  /** Its subject, as a noun; shown when it is not assessed. */
  readonly title: string;
  readonly needs: readonly Need[];
  readonly defaults: T;
  /**
   * Findings on this night, unranked; empty when there is nothing to report. Costs are train time: ten minutes on two
   * trains are twenty.
   */
  find(night: NightFacts, options: T): FindingDraft[];
}
