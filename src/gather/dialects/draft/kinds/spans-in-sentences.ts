import type { Kind } from './kind.js';
import { endIn, withoutLead } from './leading-on.js';
import { type OtherTime, type OwnStamp, type Ranged, rangedTo, rangesOf, timeOf } from './parts.js';

/**
 * The kinds whose lines state both ends of a thing, in fields, by two stamps, or in a sentence.
 *
 * @param counted reads counts, in a log whose own times are counts in pairs
 * @param again reads the second time of a sentence, where the log's times count
 */
export function spansOf(
  kinds: readonly Kind[],
  ownStamp: OwnStamp,
  counted?: OtherTime,
  again?: OtherTime,
): ReadonlyMap<Kind, Ranged> {
  // What counts in a line is its own stamp.
  const isOwn = ownStamp === 'counts' && counted === undefined;
  const found = new Map([
    ...(ownStamp === 'apart' ? [] : spansInSentences(kinds, again)),
    ...(isOwn ? [] : rangesOf(kinds, counted)),
  ]);
  return new Map(
    [...found].map(([kind, range]) => {
      const { wording, lead } = withoutLead(kind, range.slot);
      return [kind, { ...range, kind: { ...range.kind, wording, lead } }];
    }),
  );
}

/**
 * The kinds of a log with its stamps in its sentences whose lines tell from when to when: `from 21:03:10 to 21:04:38
 * heron focuses`. The first time is the line's own; what leads from it to the second says that this one is the end.
 *
 * @param counted reads the second, where the log's times count
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
