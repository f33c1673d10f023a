import type { Kind } from './kinds/kind.js';
import { withLegend, type Legend } from './legend.js';
import { meaningOf } from './legend-words.js';
import { wordEvidence } from './lexicon/word-evidence.js';
import type { Reading } from './reading/reading.js';
import { HEAD_LINES } from './time/settled-stamp.js';

/** What writes a log of the guiding alone. */
const GUIDER = 'guider ';
/** What words say outright. */
const SHIFT = 3;

/** Whether lines begin with a code by which the log itself means a dither. */
export function isShift({ wording }: Kind, { phrases }: Legend): boolean {
  const meaning = meaningOf(wording, phrases);
  return meaning !== undefined && (wordEvidence(meaning).get('dither-begin') ?? 0) >= SHIFT;
}

/**
 * The kind with what its log says of itself: the words of a legend for its marks, and for a log of guiding samples that
 * guiding is what its other lines are likely about.
 */
export function explained(kind: Kind, legend: Legend, guidingOnly: boolean): Kind {
  const { wording, lead } = withLegend(kind.wording, legend);
  return {
    ...kind,
    // In front, as a line's source stands: words at a line's end may mean something there alone.
    wording: `${guidingOnly ? GUIDER : ''}${wording}`,
    // What a legend says of a mark tells as much as the words would.
    lead:
      (wording === kind.wording ? kind.lead : lead) +
      (guidingOnly && (lead > 0 || wording === kind.wording) ? GUIDER.length : 0),
    hints: `${kind.hints} ${guidingOnly ? 'guiding' : ''}`.trim(),
  };
}

/** In a text log legends stand among the lines without a stamp; in a log without any, at its head. */
export function legendLines({ stamp, unstamped, layout }: Reading, headTexts: readonly string[]): readonly string[] {
  const lines = stamp === null || layout.kind !== 'text' ? headTexts : unstamped.map(({ text }) => text);
  return lines.slice(0, HEAD_LINES);
}
