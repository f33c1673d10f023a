import type { Kind } from './kind.js';

/** A mark in front of this share of the lines tells none from another. */
const COMMON = 0.6;
/** A mark that would say that something fails stands in front of few lines. */
const FAILING = /^(?:!{1,2}|x|✗|×)$/u;
const COMMON_FAILING = 0.25;
/** What opens a bracket that is closed later on is no bullet. */
const LEADING = /^(?![([{]|<[^<>]*>)[^\p{L}\p{N}#\s]{1,2}(?=\s?[\p{L}\p{N}#])/u;

/**
 * The kinds without the mark that stands in front of most lines: `■`, `-` or `>` as a bullet says nothing, while `+`
 * and `-` in turn say what begins and what ends.
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
    // What names the device in front is as much shorter.
    return { ...kind, wording, lead: Math.max(0, kind.lead - (kind.wording.length - wording.length)) };
  });
}
