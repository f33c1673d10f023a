/** Placeholders for missing values, and rules between a head and its rows. */
const NOTED = String.raw`:?-{3,}:?|={3,}|N\/A|NA|n\/a|n\.a\.|null|NULL|NaN|\\N`;
const NOTHING = new RegExp(`^(?:${NOTED})$`);
const NOTHING_OR_DASH = new RegExp(`^(?:[-–—]+|${NOTED})$`);

/**
 * The text of a cell, trimmed; empty if it only means that there is no value: `NA`, `null`.
 *
 * @param dashIsEmpty a single dash means so, too; between delimiters it may be a sign
 */
export function cellText(text: string, dashIsEmpty = false): string {
  const trimmed = text.trim();
  return (dashIsEmpty ? NOTHING_OR_DASH : NOTHING).test(trimmed) ? '' : trimmed;
}
