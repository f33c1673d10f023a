/**
 * All possible beginnings of an expression's matches, `null` if it may begin with anything: `list[oa]` with `list`,
 * `(?:ha|han)_sido` with `ha sido` or `han sido`. Lookarounds are ignored.
 */
export function beginnings(source: string): string[] | null {
  if (alternatives(source).length > 1) return null;
  if (/^\(\?<?[!=]/.test(source)) return beginnings(source.slice(endOfGroup(source)));
  if (source.startsWith('(?:')) return ofGroup(source);
  const set = /^\[([^\]^\\-]+)\](?![?*+{])/.exec(source);
  if (set !== null) return ofAll([...(set[1] ?? '')], source.slice(set[0].length));
  const [plain = ''] = /^[^\\^$.|?*+()[\]{}]*/.exec(source) ?? [];
  const rest = source.slice(plain.length);
  if (!/^[?*+{]/.test(rest)) return plain === '' ? null : [plain];
  // The last letter may be omitted or repeated.
  if (plain.length > 1) return [plain.slice(0, -1)];
  return plain !== '' && /^\?(?!\?)/.test(rest) ? ofAll([plain, ''], rest.slice(1)) : null;
}

function ofGroup(source: string): string[] | null {
  const end = endOfGroup(source);
  const rest = source.slice(end);
  const parts = alternatives(source.slice('(?:'.length, end - 1));
  if (/^[*+{]/.test(rest)) return null;
  return rest.startsWith('?') ? ofAll([...parts, ''], rest.slice(1)) : ofAll(parts, rest);
}

/** The beginnings of each alternative followed by the same rest. */
function ofAll(parts: readonly string[], behind: string): string[] | null {
  const all: string[] = [];
  for (const part of parts) {
    const own = beginnings(part + behind);
    if (own === null) return null;
    all.push(...own);
  }
  return all;
}

/** The alternatives outside all groups and sets. */
function alternatives(source: string): string[] {
  const parts: string[] = [];
  let from = 0;
  for (let at = 0; at < source.length; at = endOfPiece(source, at))
    if (source[at] === '|') {
      parts.push(source.slice(from, at));
      from = at + 1;
    }
  return [...parts, source.slice(from)];
}

/** End of the group at the beginning of a text. */
function endOfGroup(source: string): number {
  let at = 1;
  while (at < source.length && source[at] !== ')') at = endOfPiece(source, at);
  return at + 1;
}

function endOfPiece(source: string, at: number): number {
  if (source[at] === '(') return at + endOfGroup(source.slice(at));
  if (source[at] === '[') return Math.max(at, source.indexOf(']', at)) + 1;
  return at + (source[at] === '\\' ? 2 : 1);
}
