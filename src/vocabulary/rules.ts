import { PIXEL_RULES } from './pixel-rules.js';
import type { RuleRow } from './rule-row.js';
import { keysOf } from './table.js';

/**
 * The rules of verdict. Displacements: reference formulas of elongation.
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
    brief: 'seconds of mount motion that an exposure tolerates',
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
    brief: 'seconds without guiding that an exposure tolerates …',
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
    brief: '… or this share of it, whichever is longer',
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
    meaning: 'guiding off for no longer than this is ignored',
    brief: 'seconds without guiding that are ignored',
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
    meaning: 'elongation of the stars caused by a movement: below this the interruption is cleared, above it doubtful',
    brief: 'elongation caused by a movement: below it cleared, above it doubtful',
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
    meaning: 'elongation of the stars caused by a movement: above this lost',
    brief: 'elongation caused by a movement: above it lost',
  },
  ...PIXEL_RULES,
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

/** The rules unless the rig file states others. */
export const DEFAULT_RULES: Rules = rulesFrom((row) => row.default);
