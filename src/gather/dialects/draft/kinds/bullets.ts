import type { Kind } from './kind.js';

/** A mark before this fraction of the lines distinguishes nothing. */
const COMMON = 0.6;
/** A mark that signals failure precedes few lines. */
const FAILING = /^(?:!{1,2}|x|✗|×)$/u;
const COMMON_FAILING = 0.25;
/** An opening bracket with a matching closing one is not a bullet. */
const LEADING = /^(?![([{]|<[^<>]*>)[^\p{L}\p{N}#\s]{1,2}(?=\s?[\p{L}\p{N}#])/u;

/**
 * The kinds without the mark that precedes most lines: `■`, `-` or `>` as a bullet has no meaning, while alternating
 * `+` and `-` mark begins and ends.
 */
export function withoutBullets(kinds: readonly Kind[]): readonly Kind[] {
  const counts = new Map<string, number>();
  let total = 0;
  for (const { wording, count } of kinds) {
    total += count;
    const mark = LEADING.exec(wording)?.[0];
    if (mark !== undefined) counts.set(mark, (counts.get(mark) ?? 0) + count);
  }
  const [bullet] =
    [...counts].find(([mark, count]) => count >= (FAILING.test(mark) ? COMMON_FAILING : COMMON) * total) ?? [];
  if (bullet === undefined) return kinds;
  return kinds.map((kind) => {
    if (LEADING.exec(kind.wording)?.[0] !== bullet) return kind;
    const wording = kind.wording.slice(bullet.length).trimStart();
    // The part that names the device is shorter by the same amount.
    return { ...kind, wording, lead: Math.max(0, kind.lead - (kind.wording.length - wording.length)) };
  });
}
