import { wordEvidence } from '../lexicon/word-evidence.js';
import type { Kind } from './kind.js';
import { endIn, withoutLead } from './leading-on.js';
import { type OtherTime, type OwnStamp, type Ranged, rangedTo, rangesOf, timeOf } from './parts.js';

/** Evidence of a subject that is named, and of what happens to it. */
const CLEAR = 4;

/**
 * The kinds whose lines state both ends of a span, in fields, as two stamps, or in a sentence.
 *
 * @param counted reads counters, in a log whose own times are pairs of counters
 * @param again reads the second time of a sentence, if the log's times are counters
 */
export function spansOf(
  kinds: readonly Kind[],
  ownStamp: OwnStamp,
  counted?: OtherTime,
  again?: OtherTime,
): ReadonlyMap<Kind, Ranged> {
  // The counter in a line is its own stamp.
  const isOwn = ownStamp === 'counts' && counted === undefined;
  const found = new Map([
    ...(ownStamp === 'apart' ? [] : spansInSentences(kinds, again)),
    ...(isOwn ? [] : rangesOf(kinds, counted)),
  ]);
  return new Map(
    [...found].map(([kind, range]) => {
      const { wording, lead } = withoutLead(kind, range.slot);
      // Waiting for a dither is reported where it begins: its end is the dither.
      const isWait = range.isEnd && waits(wording);
      const { atMs } = isWait ? kind : range.kind;
      // In a sentence the words of a wait may only introduce the second time: `dither, until 21:04:38`.
      const inTable: Pick<Ranged, 'isWait'> = isWait && range.slot.path !== null ? { isWait } : {};
      return [kind, { ...range, ...inTable, kind: { ...range.kind, wording, lead, atMs } }];
    }),
  );
}

/**
 * The kinds of a log with stamps inside its sentences whose lines state a range: `from 21:03:10 to 21:04:38 heron
 * focuses`. The first time is the line's own; the word between identifies the second as the end.
 *
 * @param counted reads the second, if the log's times are counters
 */
function spansInSentences(kinds: readonly Kind[], counted?: OtherTime): Map<Kind, Ranged> {
  return new Map(
    kinds.flatMap((kind): [Kind, Ranged][] => {
      const slot = endIn(kind);
      if (slot === undefined) return [];
      const other = kind.atMs.map((atMs, i) =>
        counted === undefined ? timeOf(slot, i, atMs) : counted(slot.perLine[i] ?? '', kind.lines[i] ?? 0, atMs),
      );
      const range = rangedTo(kind, slot, other);
      return range?.isEnd === true ? [[kind, range]] : [];
    }),
  );
}

/** Whether words say, before all else, that a train waits for a dither. */
function waits(wording: string): boolean {
  const [best] = [...wordEvidence(wording)].sort((a, b) => b[1] - a[1]);
  return best?.[0] === 'dither-ready' && best[1] >= CLEAR;
}
