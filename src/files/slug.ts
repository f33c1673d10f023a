/**
 * A short word for an id or a file name from free text: `Heron 80 mm` → `heron-80-mm`. Accents are removed, letters of
 * every script stay (a library's transliteration would leave nothing of a name in an unknown script).
 *
 * @param maxLength the word's maximum length, in UTF-16 units
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
