/** Increments a count. */
export function increment(counts: Map<string, number>, key: string): void {
  counts.set(key, (counts.get(key) ?? 0) + 1);
}

/** A text escaped for a time pattern. */
export function escapeBraces(text: string): string {
  return text.replace(/[{}]/g, (brace) => brace + brace);
}
