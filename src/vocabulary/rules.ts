import type { EvidenceKind } from './evidence.js';
import { keysOf } from './table.js';

interface RuleRow {
  /** The rig file's word for it, under `rules`. */
  readonly key: string;
  readonly default: number;
  readonly low: number;
  readonly high: number;
  /** What the number is, as messages about it say. */
  readonly what: string;
  /** How the page writes a value. */
  readonly unit: 's' | 'px' | '×' | '%' | '';
  readonly decimals: number;
  /** The evidence it judges: a report prints the rules of the evidence it had. */
  readonly of: EvidenceKind;
  /** Completes "rule: …" on the page. */
  readonly meaning: string;
  /** A few words for the starter file. */
  readonly brief: string;
}

/**
 * The rules of verdict. Limits on pixels: common practice, no source; displacements: reference formulas of elongation.
 */
export const RULES = {
  motionGraceSeconds: {
    key: 'motionGrace',
    default: 1,
    low: 0,
    high: 3600,
    what: 'seconds',
    unit: 's',
    decimals: 1,
    of: 'duration',
    meaning: 'more mount motion or settling than this during an exposure: lost',
    brief: 'seconds of mount motion an open shutter bears',
  },
  guidingOffGraceSeconds: {
    key: 'guidingOffGrace',
    default: 10,
    low: 0,
    high: 3600,
    what: 'seconds',
    unit: 's',
    decimals: 0,
    of: 'duration',
    meaning: 'more guiding off than this, or than the share below where that is longer: lost; less: doubtful',
    brief: 'seconds without guiding an exposure bears …',
  },
  guidingOffShare: {
    key: 'guidingOffShare',
    default: 0.05,
    low: 0,
    high: 1,
    what: 'a share of the exposure',
    unit: '%',
    decimals: 0,
    of: 'duration',
    meaning: 'of the exposure',
    brief: '… or this share of it, whichever is more',
  },
  guidingOffNoticeSeconds: {
    key: 'guidingOffNotice',
    default: 2,
    low: 0,
    high: 3600,
    what: 'seconds',
    unit: 's',
    decimals: 1,
    of: 'duration',
    meaning: 'guiding off for no longer than this is not noticed',
    brief: 'seconds without guiding that are not noticed at all',
  },
  roughGuidingPixels: {
    key: 'roughGuiding',
    default: 1,
    low: 0.01,
    high: 100,
    what: 'a multiple of the pixel scale',
    unit: 'px',
    decimals: 1,
    of: 'guiding',
    meaning: 'guiding RMS over the exposure above this many pixels of the train: doubtful',
    brief: 'guiding RMS limit, in pixels of the train',
  },
  displacementDoubtful: {
    key: 'displacementDoubtful',
    default: 0.05,
    low: 0,
    high: 100,
    what: 'an elongation',
    unit: '',
    decimals: 2,
    of: 'displacement',
    meaning: 'elongation that a movement draws: below this the interruption is cleared, above it doubtful',
    brief: 'elongation drawn by a movement: below it cleared, above it doubtful',
  },
  displacementLost: {
    key: 'displacementLost',
    default: 0.2,
    low: 0,
    high: 100,
    what: 'an elongation',
    unit: '',
    decimals: 2,
    of: 'displacement',
    meaning: 'elongation that a movement draws above this: lost',
    brief: 'elongation drawn by a movement: above it lost',
  },
  clearedJumpShare: {
    key: 'clearedJumpShare',
    default: 0.01,
    low: 0,
    high: 1,
    what: 'a share of the exposure',
    unit: '%',
    decimals: 1,
    of: 'pixels',
    meaning: 'pixels clear a motion of the mount only where less of the exposure than this was at the other place',
    brief: 'share of the exposure at another place that round stars may hide',
  },
  trailedDoubtfulElongation: {
    key: 'trailedDoubtful',
    default: 1.25,
    low: 1,
    high: 100,
    what: 'an axis ratio',
    unit: '',
    decimals: 2,
    of: 'pixels',
    meaning: 'axis ratio of the stars above this, and above the next of the usual, in one direction: doubtful',
    brief: 'axis ratio of the stars above this …',
  },
  trailedDoubtfulRatio: {
    key: 'trailedDoubtfulUsual',
    default: 1.2,
    low: 1,
    high: 100,
    what: 'a multiple of the usual axis ratio',
    unit: '×',
    decimals: 2,
    of: 'pixels',
    meaning: 'times the usual axis ratio',
    brief: '… and above this many times the usual: doubtful',
  },
  trailedLostElongation: {
    key: 'trailedLost',
    default: 1.6,
    low: 1,
    high: 100,
    what: 'an axis ratio',
    unit: '',
    decimals: 2,
    of: 'pixels',
    meaning: 'axis ratio of the stars above this, and above the next of the usual, in one direction: lost',
    brief: 'axis ratio of the stars above this …',
  },
  trailedLostRatio: {
    key: 'trailedLostUsual',
    default: 1.4,
    low: 1,
    high: 100,
    what: 'a multiple of the usual axis ratio',
    unit: '×',
    decimals: 2,
    of: 'pixels',
    meaning: 'times the usual axis ratio',
    brief: '… and above this many times the usual: lost',
  },
  swollenDoubtfulRatio: {
    key: 'swollenDoubtful',
    default: 1.3,
    low: 1,
    high: 100,
    what: 'a multiple of the usual star size',
    unit: '×',
    decimals: 2,
    of: 'pixels',
    meaning: 'star size above this many times the usual: doubtful',
    brief: 'star size above this many times the usual: doubtful',
  },
  swollenLostRatio: {
    key: 'swollenLost',
    default: 1.8,
    low: 1,
    high: 100,
    what: 'a multiple of the usual star size',
    unit: '×',
    decimals: 2,
    of: 'pixels',
    meaning: 'star size above this many times the usual: lost',
    brief: 'star size above this many times the usual: lost',
  },
  dimmedDoubtfulFlux: {
    key: 'dimmedDoubtful',
    default: 0.7,
    low: 0,
    high: 1,
    what: 'a share of the flux of the best third',
    unit: '×',
    decimals: 2,
    of: 'pixels',
    meaning: 'star flux below this share of the group’s best third: doubtful',
    brief: 'star flux below this share of the best third: doubtful',
  },
  dimmedLostFlux: {
    key: 'dimmedLost',
    default: 0.3,
    low: 0,
    high: 1,
    what: 'a share of the flux of the best third',
    unit: '×',
    decimals: 2,
    of: 'pixels',
    meaning: 'star flux below this share of the group’s best third: lost',
    brief: 'star flux below this share of the best third: lost',
  },
  dimmedLostStars: {
    key: 'dimmedLostStars',
    default: 0.1,
    low: 0,
    high: 1,
    what: 'a share of the stars of the best third',
    unit: '×',
    decimals: 2,
    of: 'pixels',
    meaning: 'fewer stars than this share of the group’s best third: lost',
    brief: 'fewer stars than this share of the best third: lost',
  },
  minimumGroupFrames: {
    key: 'minimumGroup',
    default: 6,
    low: 1,
    high: 1000,
    what: 'frames',
    unit: '',
    decimals: 0,
    of: 'pixels',
    meaning: 'frames of a train, target and filter that make a usual; with fewer, the train’s',
    brief: 'frames of a train, target and filter that make a usual value',
  },
  minimumStars: {
    key: 'minimumStars',
    default: 10,
    low: 1,
    high: 100_000,
    what: 'stars',
    unit: '',
    decimals: 0,
    of: 'pixels',
    meaning: 'with fewer stars than this the pixels say nothing',
    brief: 'with fewer stars than this the pixels say nothing',
  },
} as const satisfies Readonly<Record<string, RuleRow>>;

export type RuleName = keyof typeof RULES;
export const RULE_NAMES = keysOf(RULES);
/** The rig file's words, in the table's order. */
export type RuleKey = (typeof RULES)[RuleName]['key'];

/** The rules a night was judged by. */
export type Rules = { readonly [Name in RuleName]: number };

/** A rule's row. */
export function ruleRow(name: RuleName): RuleRow {
  return RULES[name];
}

/** A value for each rule. */
export function rulesFrom(value: (row: RuleRow, name: RuleName) => number): Rules {
  return Object.fromEntries(RULE_NAMES.map((name) => [name, value(RULES[name], name)])) as Rules;
}

/** The rules where the rig file says nothing else. */
export const DEFAULT_RULES: Rules = rulesFrom((row) => row.default);
