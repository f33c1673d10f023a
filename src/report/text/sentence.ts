/**
 * A message or a piece of evidence, which begins in lower case after a colon elsewhere, as a separate sentence.
 *
 * @param names of trains, which keep their letters at the beginning too, as do file names and other words with signs
 */
export function sentence(text: string, names: readonly string[] = []): string {
  const isNamed = names.some((name) => text.startsWith(name) && !/^[\p{L}\p{N}]/u.test(text.slice(name.length)));
  // `frames/a.fits`, `bubo-90`: a capital would name another file, or another train.
  const isSign = /^\S*[\d./\\_]\S/.test(text);
  const begun = isNamed || isSign ? text : `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
  return `${begun}${/[.!?]$/.test(text) ? '' : '.'}`;
}
