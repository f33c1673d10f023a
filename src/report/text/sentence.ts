/**
 * A message or a piece of evidence, which begin small after the colon that stands before them elsewhere, as a sentence
 * of its own.
 *
 * @param names of trains, which keep their letters at its beginning too
 */
export function sentence(text: string, names: readonly string[] = []): string {
  const isNamed = names.some((name) => text.startsWith(name) && !/^[\p{L}\p{N}]/u.test(text.slice(name.length)));
  const begun = isNamed ? text : `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
  return `${begun}${/[.!?]$/.test(text) ? '' : '.'}`;
}
