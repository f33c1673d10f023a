import type { Kind } from '../kinds/kind.js';
import { endsSomething } from '../lexicon/said.js';

/** One line of a kind on the log's timeline. */
export interface Occurrence {
  readonly kind: Kind;
  readonly atMs: number;
  readonly line: number;
}

/** Further lines add nothing to the evidence of neighbours. */
const MAX_OCCURRENCES = 6000;

/** The timed lines of all kinds, in chronological order; of the cells of a row, ends come first. */
export function timelineOf(kinds: readonly Kind[]): Occurrence[] {
  const ending = new Set(kinds.filter(({ wording, isCell }) => isCell === true && endsSomething(wording)));
  const rank = ({ kind }: Occurrence): number => (ending.has(kind) ? 0 : 1);
  return kinds
    .flatMap((kind) =>
      kind.lines.flatMap((line, i): Occurrence[] => {
        const atMs = kind.atMs[i] ?? NaN;
        return Number.isNaN(atMs) ? [] : [{ kind, atMs, line }];
      }),
    )
    .sort((a, b) => a.atMs - b.atMs || a.line - b.line || rank(a) - rank(b))
    .slice(0, MAX_OCCURRENCES);
}
