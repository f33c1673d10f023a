import type { EventName } from '../../../model/index.js';
import type { Kind } from './kinds/kind.js';
import { wordEvidence } from './lexicon/word-evidence.js';

/** What a log of the guiding alone tells of. */
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
  // The signs of the corrections change with the side of the pier.
  'flip-begin',
  'flip-end',
];
/** What such a log may tell besides, where its words say so outright. */
const OF_MOUNT: readonly EventName[] = [
  'slew-begin',
  'slew-end',
  'centre-begin',
  'centre-end',
  'hold-begin',
  'hold-end',
];
const OUTRIGHT = 2.5;

/** What a kind of line may be in a log of the guiding alone. */
export function ofGuiding({ wording, hints, lead }: Kind): readonly EventName[] {
  const said = wordEvidence(wording, hints, lead);
  return [...OF_GUIDING, ...OF_MOUNT.filter((event) => (said.get(event) ?? 0) >= OUTRIGHT)];
}
