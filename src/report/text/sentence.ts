/**
 * A message or a piece of evidence, which begin small after the colon that stands before them elsewhere, as a sentence
 * of its own.
 *
 * @param names of trains, which keep their letters at its beginning too, as do files' names and other words of signs
 */
export function sentence(text: string, names: readonly string[] = []): string {
  const isNamed = names.some((name) => text.startsWith(name) && !/^[\p{L}\p{N}]/u.test(text.slice(name.length)));
  // `frames/a.fits`, `bubo-90`: capitals would make another file of it, or another train.
  const isSign = /^\S*[\d./\\_]\S/.test(text);
  const begun = isNamed || isSign ? text : `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
  return `${begun}${/[.!?]$/.test(text) ? '' : '.'}`;
}
