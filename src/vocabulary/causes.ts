import type { EvidenceKind } from './evidence.js';
import type { RuleName } from './rules.js';
import { keysOf } from './table.js';

interface CauseRow {
  readonly label: string;
  /** Its possible evidence, strongest first. */
  readonly restsOn: readonly [EvidenceKind, ...EvidenceKind[]];
  /** Stronger evidence of no harm overrides it: recorded on a kept frame. Absent: it always stands. */
  readonly clearedBy?: readonly EvidenceKind[];
  /** The rules that decide. */
  readonly rules: readonly RuleName[];
}

/** Every cause for which a frame is not simply kept; the order is their precedence. */
export const CAUSES = {
  'mount-motion': {
    label: 'mount in motion',
    restsOn: ['displacement', 'duration'],
    clearedBy: ['pixels', 'displacement'],
    rules: ['motionGraceSeconds', 'clearedJumpShare', 'displacementDoubtful', 'displacementLost'],
  },
  'guiding-off': {
    label: 'guiding off',
    restsOn: ['displacement', 'duration'],
    clearedBy: ['pixels', 'displacement'],
    rules: [
      'guidingOffGraceSeconds',
      'guidingOffShare',
      'guidingOffNoticeSeconds',
      'displacementDoubtful',
      'displacementLost',
    ],
  },
  'cut-short': { label: 'cut short', restsOn: ['header'], rules: [] },
  'no-sky': { label: 'no sky in it', restsOn: ['pixels'], rules: ['minimumStars', 'minimumGroupFrames'] },
  'rough-guiding': {
    label: 'rough guiding',
    restsOn: ['guiding'],
    clearedBy: ['pixels'],
    rules: ['roughGuidingPixels'],
  },
  trailed: {
    label: 'stars trailed',
    restsOn: ['pixels'],
    rules: [
      'trailedDoubtfulElongation',
      'trailedDoubtfulRatio',
      'trailedLostElongation',
      'trailedLostRatio',
      'minimumGroupFrames',
      'minimumStars',
    ],
  },
  doubled: {
    label: 'stars doubled',
    restsOn: ['pixels'],
    rules: ['doubledLostShare', 'displacementDoubtful', 'displacementLost', 'minimumStars'],
  },
  swollen: {
    label: 'stars swollen',
    restsOn: ['pixels'],
    rules: ['swollenDoubtfulRatio', 'swollenLostRatio', 'minimumGroupFrames', 'minimumStars'],
  },
  dimmed: {
    label: 'stars dimmed',
    restsOn: ['pixels'],
    rules: ['dimmedDoubtfulFlux', 'dimmedLostFlux', 'dimmedLostStars', 'minimumGroupFrames', 'minimumStars'],
  },
  'other-filter': { label: 'another filter’s light', restsOn: ['pixels'], rules: [] },
  low: { label: 'target low', restsOn: ['sky'], rules: [] },
  twilight: { label: 'twilight', restsOn: ['sky'], rules: [] },
} as const satisfies Readonly<Record<string, CauseRow>>;

/** Kinds of cause, in the record's words. */
export type CauseKind = keyof typeof CAUSES;
export const CAUSE_KINDS = keysOf(CAUSES);
/** Kinds of cause based only on stars measured in the pixels. */
export const PIXEL_CAUSES: readonly CauseKind[] = CAUSE_KINDS.filter((kind) => causeRow(kind).restsOn[0] === 'pixels');

/** A kind's row, with the optional columns to be asked for. */
export function causeRow(kind: CauseKind): CauseRow {
  return CAUSES[kind];
}
