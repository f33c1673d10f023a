const PARTS = /^\s*(?:(\d+(?:\.\d+)?)\s*h(?:ours?)?)?\s*(?:(\d+(?:\.\d+)?)\s*m(?:in(?:utes?)?)?)?\s*$/iu;

/** Hours from `12h`, `1h30m`, `90m`, `90 min` or a plain number of hours; `null` when it is none of these. */
export function parseHours(value: string | number): number | null {
  const plain = typeof value === 'number' ? value : Number(value.trim() || NaN);
  if (Number.isFinite(plain)) return plain >= 0 ? plain : null;
  const match = PARTS.exec(String(value));
  if (!match || (match[1] === undefined && match[2] === undefined)) return null;
  return Number(match[1] ?? 0) + Number(match[2] ?? 0) / 60;
}
