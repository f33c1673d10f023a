import fc from 'fast-check';

/** The first of the code points that stand for none by themselves (Unicode, D800 to DFFF), and how many there are. */
const SURROGATES = 0xd800;
const SURROGATE_COUNT = 0x800;

/** Any character that stands by itself. */
const CHARACTER = fc
  .nat({ max: 0x10ffff - SURROGATE_COUNT })
  .map((nth) => String.fromCodePoint(nth < SURROGATES ? nth : nth + SURROGATE_COUNT), nthOf);

/** @throws TypeError for what is no single character */
function nthOf(character: unknown): number {
  const code = typeof character === 'string' ? character.codePointAt(0) : undefined;
  if (code === undefined || character !== String.fromCodePoint(code)) throw new TypeError('one character is needed');
  return code < SURROGATES ? code : code - SURROGATE_COUNT;
}

/**
 * Texts of any characters, and the names that objects have of their own (`__proto__`…), as fast-check's `binary` makes
 * them: that keeps a table of all 1,112,064 characters, which takes a second of each process and 100 MB.
 */
export function anyText(constraints: { readonly maxLength: number }): fc.Arbitrary<string> {
  return fc.string({ ...constraints, unit: CHARACTER });
}
