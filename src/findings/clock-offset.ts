/**
 * Computers whose clocks disagree.
 */
import {
  CLOCK_TOLERANCE_MS,
  clockDifference,
  clockStatements,
  driftWords,
  isClockApart,
  STEERING_ADVICE,
} from '../model/index.js';
import type { FindingModule } from './finding.js';

export const clockOffset: FindingModule<{ readonly toleranceSeconds: number }> = {
  id: 'clock-offset',
  title: 'Clocks of the computers',
  needs: ['event-log'],
  // Capture programs' own delays explain a second or two; common practice, no source.
  defaults: { toleranceSeconds: CLOCK_TOLERANCE_MS / 1000 },
  find(night, { toleranceSeconds }) {
    return clockStatements(night.timeline.clocks)
      .filter((c) => isClockApart(c, toleranceSeconds * 1000))
      .map((note) => ({
        title:
          `${note.subject} ${clockDifference(note.aheadMs)} ${note.aheadMs > 0 ? 'ahead of' : 'behind'} ` +
          `${note.against}${driftWords(note)}`,
        costMs: 0,
        evidence: [
          `± ${clockDifference(note.uncertaintyMs)}, by ${note.by}`,
          note.corrected
            ? 'taken into account in this report'
            : 'times in this report are left as written: what happened during whose exposure is uncertain by ' +
              'that much',
          ...(note.isAbsolute ? [] : ['it is not known which of the two is right']),
        ],
        advice: note.drift
          ? `${STEERING_ADVICE.charAt(0).toUpperCase()}${STEERING_ADVICE.slice(1)}.`
          : 'Set all computers by the same time server, and check before dusk that they follow it.',
        confidence: note.uncertaintyMs <= 1000 ? ('high' as const) : ('medium' as const),
        links: [{ text: 'Notes on the data', anchor: 'notes' }],
      }));
  },
};
