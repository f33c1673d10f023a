/**
 * A text made harmless for terminals: control characters, including those that begin escape sequences, and those that
 * change the writing direction are shown as `\x1b`, `\u202e`. File names come from strangers and may contain any of
 * them.
 */
export function printable(text: string): string {
  return text.replace(/[\p{Cc}\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu, (character) =>
    character === '\t' ? ' ' : escaped(character.codePointAt(0) ?? 0),
  );
}

function escaped(code: number): string {
  return code < 0x100 ? `\\x${code.toString(16).padStart(2, '0')}` : `\\u${code.toString(16).padStart(4, '0')}`;
}
