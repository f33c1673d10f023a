/** A mark and what it stands for, a blank between: `+ up`, `> go`, `? = may I`. */
const SPACED = /(?<=^|[\s,;])([^\p{L}\p{N}\s,;"'()])\s?[=:]?\s(\p{L}[\p{L} ']*?)(?=\s+[^\p{L}\p{N}\s]|\s{2}|[,;]|$)/gu;
/** A mark written to its word: `◇開始 ◆終了(所要秒) ×失敗`. */
const GLUED =
  /(?<=^|[\s,;:、，；])([^\p{L}\p{N}\s,;"'()（）<>=._-])(\p{L}[\p{L}'’_-]*(?:[(（][^()（）]{1,20}[)）])?)(?=[\s,;、，；.]|$)/gu;
/** A short form and its word: `露=露光`, `EX: exposure`, `b=begin`. */
const EQUATED =
  /(?<=^|[\s,;、，；(（])([\p{L}\p{N}]{1,4}|[^\p{L}\p{N}\s,;"'()（）])\s?[=:＝：→]\s?(\p{L}[^=＝:：→,;、，；]*?)(?=\s+(?:[\p{L}\p{N}]{1,4}|[^\p{L}\p{N}\s])\s?[=:＝：→]|[,;、，；)）]|$)/gu;
/** Short forms in capitals, each with its word behind it: `XP expose SV saved LS star lost`. */
const PAIRED =
  /(?<=^|[\s,;:#])(\p{Lu}[\p{Lu}\p{N}]{0,3})\s+(\p{Ll}[\p{Ll}'’-]*(?: \p{Ll}[\p{Ll}'’-]*)?)(?=\s+\p{Lu}[\p{Lu}\p{N}]{0,3}(?:\s|$)|\s*[,;.]|\s*$)/gu;
/** Marks of several signs, each with its words, set wide apart: `x>  opens   x<  closes`. */
const WIDE = /(?<=^|\s{3})([^\s"'()]{1,3})\s+(\p{L}\S*(?: \S+)*)(?=\s{3}|$)/gu;
/** A mark of several signs, one of which is neither letter nor digit. */
const OF_SIGNS = /^(?=.*[^\p{L}\p{N}])\S{2,3}$/u;
/** Fewer entries on a line are no legend. */
const MIN_ENTRIES = 3;
/** In a sentence a capital letter or two may stand, too. */
const MIN_PAIRED = 5;

/** What the head of a log says its marks and short forms mean: its own dictionary. */
export type Legend = ReadonlyMap<string, string>;

/**
 * Reads the legend in the lines of a log's head.
 *
 * @param head lines that hold no stamp
 */
export function legendOf(head: readonly string[]): Legend {
  const legend = new Map<string, string>();
  for (const line of head) {
    const entries = [WIDE, SPACED, GLUED, EQUATED, PAIRED]
      .map((form) => [...line.trim().matchAll(form)])
      .filter((found, i) =>
        i === 0 ? found.some(([, mark = '']) => OF_SIGNS.test(mark)) : i < 4 || found.length >= MIN_PAIRED,
      )
      .sort((a, b) => b.length - a.length)[0];
    if (entries === undefined || entries.length < MIN_ENTRIES) continue;
    for (const [, mark = '', words = ''] of entries) if (!legend.has(mark)) legend.set(mark, words.trim());
  }
  return legend;
}

/** A wording with what its log's legend says of the marks and short forms in it. */
export function withLegend(wording: string, legend: Legend): string {
  if (legend.size === 0) return wording;
  const pieces = wording.match(/[\p{L}\p{N}_]+|[^\p{L}\p{N}_\s]/gu) ?? [];
  // A short form stands at the head; further on the same letters may be a word.
  const whole = wording
    .split(/\s+/)
    .slice(0, HEAD_PIECES)
    .flatMap((word) => (OF_SIGNS.test(word) ? (legend.get(word) ?? []) : []));
  const meanings =
    whole.length > 0
      ? whole
      : pieces.slice(0, HEAD_PIECES).flatMap((piece) => legend.get(piece) ?? legend.get(piece.toLowerCase()) ?? []);
  return meanings.length === 0 ? wording : `${[...new Set(meanings)].join(' ')} ${wording}`;
}

const HEAD_PIECES = 3;
