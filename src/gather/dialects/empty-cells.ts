/** What is written where nothing was noted. */
const NOTED = String.raw`N\/A|NA|n\/a|n\.a\.|null|NULL|NaN|\\N`;
const NOTHING = new RegExp(`^(?:${NOTED})$`);
const NOTHING_OR_DASH = new RegExp(`^(?:[-–—]+|${NOTED})$`);

/**
 * The text of a cell, blanks at its ends left out; empty where it only says that nothing was noted: `NA`, `null`.
 *
 * @param dashIsEmpty a dash alone says so, too; between delimiters it may be a sign
 */
export function cellText(text: string, dashIsEmpty = false): string {
  const trimmed = text.trim();
  return (dashIsEmpty ? NOTHING_OR_DASH : NOTHING).test(trimmed) ? '' : trimmed;
}
