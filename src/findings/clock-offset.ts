/**
 * Computers whose clocks disagree.
 */
import type { ClockNote } from '../model/index.js';
import type { FindingModule } from './finding.js';

export const clockOffset: FindingModule<{ readonly toleranceSeconds: number }> = {
  id: 'clock-offset',
  title: 'Clocks of the computers',
  needs: ['event-log'],
  // Capture programs' own delays explain a second or two; common practice, no source.
  defaults: { toleranceSeconds: 2 },
  find(night, { toleranceSeconds }) {
    return night.timeline.clocks
      .filter((c) => Math.abs(c.offsetMs) > toleranceSeconds * 1000 && Math.abs(c.offsetMs) > 3 * c.uncertaintyMs)
      .map((note) => ({
        title: `${who(note)} ${seconds(note)} s ${note.offsetMs > 0 ? 'ahead of' : 'behind'} ${against(note)}`,
        costMs: 0,
        evidence: [
          `± ${(note.uncertaintyMs / 1000).toFixed(1)} s, from ${note.pairs} events that both wrote down`,
          note.corrected
            ? 'taken into account in this report'
            : 'times in this report are as they were written: what fell on whose open shutter is uncertain by that much',
        ],
        advice: 'Let all computers take their time from one time server, and look before dusk that they do.',
        confidence: note.pairs >= 5 ? ('high' as const) : ('medium' as const),
        links: [{ text: 'Notes on the data', anchor: 'notes' }],
      }));
  },
};

function isOwn({ against }: ClockNote): boolean {
  return against === 'its own log';
}

function who(note: ClockNote): string {
  return isOwn(note) ? `The headers of ${note.train} are` : `The computer of ${note.train} is`;
}

function against(note: ClockNote): string {
  return isOwn(note) ? 'its log' : `the ${note.against.replace(/^the /, '')}`;
}

function seconds({ offsetMs }: ClockNote): string {
  return (Math.abs(offsetMs) / 1000).toFixed(1);
}
