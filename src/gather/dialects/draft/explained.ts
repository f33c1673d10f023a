import type { Kind } from './kinds/kind.js';
import { withLegend, type Legend } from './legend.js';
import { meaningOf } from './legend-words.js';
import { wordEvidence } from './lexicon/word-evidence.js';
import type { Reading } from './reading/reading.js';
import { HEAD_LINES } from './time/settled-stamp.js';

/** The program that writes a guiding-only log. */
const GUIDER = 'guider ';
/** What words say explicitly. */
const SHIFT = 3;

/** Whether lines begin with a code that the log's own legend defines as a dither. */
export function isShift({ wording }: Kind, { phrases }: Legend): boolean {
  const meaning = meaningOf(wording, phrases);
  return meaning !== undefined && (wordEvidence(meaning).get('dither-begin') ?? 0) >= SHIFT;
}

/**
 * The kind with the log's own explanations: legend words for its marks, and for a guiding-only log the hint that other
 * lines are probably about guiding.
 */
export function explained(kind: Kind, legend: Legend, guidingOnly: boolean): Kind {
  const { wording, lead } = withLegend(kind.wording, legend);
  return {
    ...kind,
    // In front, like a source: words at a line's end may have a meaning of their own there.
    wording: `${guidingOnly ? GUIDER : ''}${wording}`,
    // A legend's explanation of a mark counts as much as the words would.
    lead:
      (wording === kind.wording ? kind.lead : lead) +
      (guidingOnly && (lead > 0 || wording === kind.wording) ? GUIDER.length : 0),
    hints: `${kind.hints} ${guidingOnly ? 'guiding' : ''}`.trim(),
  };
}

/** In a text log legends are among the unstamped lines; in a log without stamps, at its head. */
export function legendLines(reading: Reading, headTexts: readonly string[]): readonly string[] {
  const { stamp, unstamped, layout, naming } = reading;
  const lines = stamp === null || layout.kind !== 'text' ? headTexts : unstamped.map(({ text }) => text);
  return lines.slice(0, HEAD_LINES).filter((text) => naming?.has(text) !== true);
}
