/**
 * A short word for an id or a file's name from free text: `Heron 80 mm` → `heron-80-mm`. Accents fall off, letters of
 * every script stay (a library's transliteration would leave nothing of a name in a script that it does not know).
 *
 * @param maxLength the word's greatest length, in UTF-16 units
 * @returns the empty string where the text holds no letter and no digit
 */
export function slug(text: string, maxLength: number): string {
  return text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, maxLength);
}
