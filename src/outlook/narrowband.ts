/** Emission lines by which narrowband filters are named; `7nm` in a name says it too. Common practice, no source. */
const LINE =
  /^(?:h[\s-]?(?:a|α|alpha|b|β|beta)|o[\s-]?(?:iii|3)|s[\s-]?(?:ii|2)|n[\s-]?(?:ii|2))(?![\p{L}\p{N}])|\d\s*nm\b|narrow/iu;

/**
 * Whether a filter bears moonlight: it is narrow about an emission line.
 *
 * @param more names, in lower case, that the user counts among them
 */
export function isNarrowband(filter: string, more: ReadonlySet<string> = new Set()): boolean {
  const name = filter.trim().toLowerCase();
  return more.has(name) || LINE.test(name);
}
