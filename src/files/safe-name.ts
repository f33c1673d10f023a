/** Names from headers as names of files and folders, on every system. */

/** Names that Windows keeps for devices, with any ending. */
const RESERVED = /^(con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])(\.|$)/i;
/** Longest name, UTF-8 bytes: three of them and an ending fit into the 255 of common file systems. */
const MOST_BYTES = 70;

/**
 * A text as one part of a path: `NGC 281` becomes `NGC-281`. Letters and digits of every script stay; anything that
 * some system refuses or interprets becomes a hyphen.
 *
 * @param otherwise for texts with nothing left
 */
export function safeName(text: string, otherwise = 'unnamed'): string {
  const plain = text
    .normalize('NFC')
    .replaceAll(/[^\p{L}\p{M}\p{N}+.]+/gu, '-')
    .replaceAll(/^[-.]+|[-.]+$/g, '');
  const short = cut(plain, MOST_BYTES).replaceAll(/[-.]+$/g, '');
  if (short === '') return otherwise;
  return RESERVED.test(short) ? `x-${short}` : short;
}

/** The longest beginning that fits, without tearing a character. */
function cut(text: string, bytes: number): string {
  let [kept, length] = ['', 0];
  for (const character of text) {
    length += Buffer.byteLength(character);
    if (length > bytes) break;
    kept += character;
  }
  return kept;
}

/**
 * A name for each of several keys, none of them alike even where upper and lower case are one. Which key gets a number
 * does not depend on the order in which they come.
 *
 * @param nameOf the name that a key would have on its own
 */
export function distinctNames(keys: Iterable<string>, nameOf: (key: string) => string): ReadonlyMap<string, string> {
  const taken = new Set<string>();
  const names = new Map<string, string>();
  for (const key of [...new Set(keys)].sort()) {
    const alone = nameOf(key);
    let name = alone;
    for (let count = 2; taken.has(fold(name)); count++) name = `${alone}-${count}`;
    taken.add(fold(name));
    names.set(key, name);
  }
  return names;
}

const fold = (name: string): string => name.normalize('NFC').toLowerCase();

/** What no system of today's takes in a file's name, or reads as something else. */
const UNSAFE = /[<>:"/\\|?*\p{Cc}\p{Cf}\u2028\u2029]+/gu;
/** Longest file name, UTF-8 bytes, with space for the suffixes of {@link namesBeside}. */
const MOST_FILE_BYTES = 200;

/** A file's name as every system takes it; spaces, quotes and letters of every script stay. */
export function safeFileName(name: string): string {
  const plain = name
    .replaceAll(UNSAFE, '-')
    .replaceAll(/[. ]+$/g, '')
    .replaceAll(/^[ .]+/g, '');
  const [stem, ending] = split(plain);
  const short = `${cut(stem, MOST_FILE_BYTES - Buffer.byteLength(ending))}${ending}`;
  if (short === '' || short === ending) return `frame${ending}`;
  return RESERVED.test(short) ? `x-${short}` : short;
}

/** The name, then alternatives when it is taken by another file: with the night, then with a number as well. */
export function* namesBeside(name: string, night: string): Generator<string> {
  const [stem, ending] = split(name);
  yield name;
  yield `${stem}_${night}${ending}`;
  for (let count = 2; count < 10_000; count++) yield `${stem}_${night}-${count}${ending}`;
}

/** Stem and ending; `.fits.gz` is one ending. */
function split(name: string): [stem: string, ending: string] {
  const ending = /(\.(fits?|fts))?\.[^.]{1,8}$/i.exec(name)?.[0] ?? '';
  return [name.slice(0, name.length - ending.length), ending];
}
