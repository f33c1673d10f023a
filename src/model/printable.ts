/**
 * A text that does to a terminal nothing but stand there: control characters, among them those that begin escape
 * sequences, and those that turn the direction of writing are shown as `\x1b`, `\u202e`. Names of files come from
 * strangers and may hold any of them.
 */
export function printable(text: string): string {
  return text.replace(/[\p{Cc}\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu, (character) =>
    character === '\t' ? ' ' : escaped(character.codePointAt(0) ?? 0),
  );
}

function escaped(code: number): string {
  return code < 0x100 ? `\\x${code.toString(16).padStart(2, '0')}` : `\\u${code.toString(16).padStart(4, '0')}`;
}
