import { increment } from '../../../../model/index.js';
/** Minimum frequency of a head with usual output below it, and fraction of cases with that output. */
const MIN_HEADS = 5;
const USUAL = 0.7;
/** Minimum number of displaced lines, and their fraction of the heads that lack them. */
const MIN_LATE = 3;
const MOST_LATE = 0.8;

/** A stamped line, and the first unstamped line below it. */
interface Entry {
  readonly head: string;
  readonly below: string | null;
}

/**
 * Whether unstamped lines are output written by other programs meanwhile, as in a script's log with the output of its
 * commands: if another stamped line comes between a command and its output, the output is below that line. Such lines
 * are the result of the line above them, or of an earlier one, and not part of it.
 *
 * @param lines the text of each line, without its stamp if it has one, otherwise `null`
 */
export function isOutputBetween(lines: readonly { readonly text: string; readonly message: string | null }[]): boolean {
  const entries: Entry[] = lines.flatMap(({ message }, i) => {
    if (message === null) return [];
    const next = lines[i + 1];
    return [{ head: shapeOf(message), below: next?.message === null ? shapeOf(next.text) : null }];
  });
  const usual = usualBelow(entries);
  const lacking = entries.flatMap(({ head, below }, i) => {
    const wanted = usual.get(head);
    return wanted === undefined || below !== null ? [] : [{ head, wanted, next: entries[i + 1] }];
  });
  const late = lacking.filter(({ head, wanted, next }) => next?.below === wanted && next.head !== head);
  return late.length >= MIN_LATE && late.length >= MOST_LATE * lacking.length;
}

/** The usual output below each head. */
function usualBelow(entries: readonly Entry[]): ReadonlyMap<string, string> {
  const byHead = new Map<string, Map<string | null, number>>();
  for (const { head, below } of entries) {
    const own = byHead.get(head) ?? new Map<string | null, number>();
    byHead.set(head, own);
    increment(own, below);
  }
  return new Map(
    [...byHead].flatMap(([head, own]) => {
      const all = [...own.values()].reduce((sum, count) => sum + count, 0);
      const [most] = [...own].filter(([below, count]) => below !== null && count >= USUAL * all);
      return all < MIN_HEADS || most === undefined || most[0] === null ? [] : [[head, most[0]] as const];
    }),
  );
}

/** A line's first two words, without numbers. */
function shapeOf(text: string): string {
  return text.trim().split(/\s+/).slice(0, 2).join(' ').replace(/\d+/g, '#');
}
