import type { Kind } from '../../../../src/gather/dialects/draft/kinds/kind.js';
import { textKinds, type Message } from '../../../../src/gather/dialects/draft/kinds/text-kinds.js';

/** A line of a made log: seconds since its beginning, and what it says. */
export type Line = readonly [seconds: number, text: string];

/** The kinds of line in a made log, in which line `i` is number `i + 1`. */
export function kindsOf(lines: readonly Line[]): Kind[] {
  const messages = lines.map(([seconds, text], i): Message => ({ text, line: i + 1, atMs: seconds * 1000 }));
  return textKinds(messages, false);
}

/** The kind whose lines begin so. */
export function kindLike(kinds: readonly Kind[], beginning: string): Kind {
  const found = kinds.find(({ examples }) => examples[0]?.startsWith(beginning));
  if (found === undefined) throw new Error(`no kind of line begins with ${beginning}`);
  return found;
}

/** So many times what `lines` makes of the time at which each round begins, `every` seconds apart. */
export function rounds(count: number, every: number, lines: (from: number, round: number) => readonly Line[]): Line[] {
  return Array.from({ length: count }, (_, round) => lines(round * every, round))
    .flat()
    .sort((a, b) => a[0] - b[0]);
}
