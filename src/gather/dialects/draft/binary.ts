/** How many lines are checked, and the fraction of them with characters that no text contains. */
const LOOKED_AT = 2000;
const SHARE = 0.3;
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what tells that a file is no text
const CONTROL = /[\0-\x08\x0b\x0e-\x1a\x1c-\x1f\x7f]|\ufffd/;

/** Whether a file is not text, such as a picture or an archive: every other line contains control characters. */
export function isBinary(lines: readonly string[]): boolean {
  const seen = lines.slice(0, LOOKED_AT).filter((line) => line !== '');
  return seen.length > 0 && seen.filter((line) => CONTROL.test(line)).length >= SHARE * seen.length;
}
