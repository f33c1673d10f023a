/** A mark and what it stands for: `+ up`, `> go`, `? = may I`. */
const ENTRY = /(?<=^|[\s,;])([^\p{L}\p{N}\s,;"'()])\s?[=:]?\s(\p{L}[\p{L} ']*?)(?=\s+[^\p{L}\p{N}\s]|\s{2}|[,;]|$)/gu;
/** Fewer entries on a line are no legend. */
const MIN_ENTRIES = 3;

/** What the head of a log says its marks mean. */
export function legendOf(head: readonly string[]): Map<string, string> {
  const legend = new Map<string, string>();
  for (const line of head) {
    const entries = [...line.matchAll(ENTRY)];
    if (entries.length < MIN_ENTRIES) continue;
    for (const [, mark = '', words = ''] of entries) if (!legend.has(mark)) legend.set(mark, words.trim());
  }
  return legend;
}
