import type { EventName } from '../../../model/index.js';
import type { Kind } from './kinds/kind.js';
import { wordEvidence } from './lexicon/word-evidence.js';

/** The events of a guiding-only log. */
const OF_GUIDING: readonly EventName[] = [
  'guiding-begin',
  'guiding-end',
  'guiding-rest-begin',
  'guiding-rest-end',
  'dither-begin',
  'dither-end',
  'settling-begin',
  'settling-end',
  'star-gap-begin',
  'star-gap-end',
  // The signs of the corrections change with the pier side.
  'flip-begin',
  'flip-end',
];
/** Further events of such a log, if its words are explicit. */
const OUTRIGHT_ONLY: readonly EventName[] = [
  'slew-begin',
  'slew-end',
  'centre-begin',
  'centre-end',
  'hold-begin',
  'hold-end',
  // The guide camera may have a cooler of its own.
  'cooler',
];
const OUTRIGHT = 2.5;

/** The possible events of a line kind in a guiding-only log. */
export function ofGuiding({ wording, hints, lead }: Kind): readonly EventName[] {
  const said = wordEvidence(wording, hints, lead);
  return [...OF_GUIDING, ...OUTRIGHT_ONLY.filter((event) => (said.get(event) ?? 0) >= OUTRIGHT)];
}
