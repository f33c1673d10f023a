import { isSubject } from '../lexicon/word-evidence.js';
import { nearTime } from '../time/rough-clock.js';
import type { Kind, Slot } from './kind.js';

/** A time of its own that the lines of a kind state, seen as a kind: `opened 21:03:10` inside a report of the whole exposure. */
export interface Part {
  readonly whole: Kind;
  readonly slot: Slot;
  readonly kind: Kind;
}

/**
 * The times that the lines of a kind state besides their own.
 *
 * @param stampInText the line's own stamp is part of its text
 */
export function partsOf(whole: Kind, stampInText: boolean): Part[] {
  const clocks = whole.slots.filter((slot) => slot.type === 'clock' && !(stampInText && isOwnTime(whole, slot)));
  return clocks.map((slot) => {
    const words = [...slot.before].reverse();
    const near = words.join(' ');
    // Words right in front of the time say what began or ended then; what it was may stand at the head.
    const head = whole.wording.split('\n')[0] ?? '';
    const wording = words.some(isSubject) ? near : `${headSubjects(head)} ${near}`.trim();
    return {
      whole,
      slot,
      kind: {
        ...whole,
        wording,
        hints: '',
        slots: whole.slots.filter(({ type }) => type !== 'clock' && type !== 'file'),
        atMs: whole.atMs.map((atMs, i) => nearTime(slot.perLine[i] ?? '', atMs)),
      },
    };
  });
}

/** Where the stamp stands anywhere in the line, one of the times in it is the line's own. */
function isOwnTime(whole: Kind, slot: Slot): boolean {
  return whole.atMs.every((atMs, i) => Math.abs(nearTime(slot.perLine[i] ?? '', atMs) - atMs) < 1000);
}

function headSubjects(head: string): string {
  return head.replace(/#/g, ' ').split(/\s+/).filter(isSubject).join(' ');
}
