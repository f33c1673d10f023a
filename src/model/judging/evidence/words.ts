/** Figures from the pixels as clauses. */
import { counted, decimal, percent, type EvidenceKind } from '../../../vocabulary/index.js';
import type { Rules } from '../../../vocabulary/index.js';
import type { Surroundings } from '../cause.js';
import type { UsualStars } from '../facts.js';
import { starsAreRound, starShape } from './pixels.js';

/** The basis of the usual value: `of 12 frames`, `of the train’s 30 frames: too few of its target and filter`. */
export function usualOf(usual: UsualStars | null): string {
  if (usual === null) return '';
  return usual.of === 'group'
    ? `of ${counted(usual.frames, 'frame')}`
    : `of the train’s ${counted(usual.frames, 'frame')}: too few of its target and filter`;
}

/** `axis ratio of the stars 1.85, 93 % in one direction; usual 1.08 (of 12 frames)`. */
export function shapeText(around: Surroundings): string {
  const shape = starShape(around, around.rules);
  if (shape === null) return '';
  return (
    `axis ratio of the stars ${decimal(shape.elongation, 2)}, ${percent(shape.agreement)} in one direction; ` +
    `usual ${decimal(shape.usualElongation, 2)} (${usualOf(around.usual)})`
  );
}

/** Why an interruption has no effect. */
export function clearedText(what: string, around: Surroundings, by: EvidenceKind): string {
  return by === 'pixels'
    ? `${what}, but the stars are ` +
        (starsAreRound(around, around.rules) ? 'round' : 'as on the other frames') +
        `: ${shapeText(around)}`
    : `${what}, but the movement elongates stars by at most ${decimal(around.displacement?.atMost, 3)} on ` +
        `this train, below ${displacementLimit(around.rules)}`;
}

const displacementLimit = (rules: Rules): string => decimal(rules.displacementDoubtful, 2);
