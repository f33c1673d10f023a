/** Sound things spoilt: hostile keys, sizes and numbers in place of some of their parts. */
import fc from 'fast-check';
import { anyText } from '../../support/any-text.js';

const KEYS = [
  'constructor',
  'toString',
  '__proto__',
  'hasOwnProperty',
  'valueOf',
  '',
  ' ',
  '\0',
  '🔭',
  'x'.repeat(5000),
];
const NUMBERS = [0, -0, -1, 1e8, 1e13, 1e308, -1e308, 5e-324, Number.MAX_SAFE_INTEGER, 86_400.5];
const scalar = fc.oneof(
  fc.constantFrom(...KEYS),
  fc.constantFrom(...NUMBERS),
  fc.constantFrom(null, true, '9999-12-31', '2026-13-40', '1e9h', '12h'),
  anyText({ maxLength: 20 }),
);
/** Any JSON value, of hostile parts. */
export const value = fc.letrec((tie) => ({
  node: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    scalar,
    fc.array(tie('node'), { maxLength: 4 }),
    fc.dictionary(fc.oneof(fc.constantFrom(...KEYS), fc.string({ maxLength: 8 })), tie('node'), { maxKeys: 4 }),
  ),
})).node;

/** A sound thing with some of its parts, at any depth, replaced by hostile ones. */
export function spoilt(sound: unknown): fc.Arbitrary<unknown> {
  const places = placesIn(sound);
  return fc
    .array(fc.tuple(fc.constantFrom(...places), value), { minLength: 1, maxLength: 3 })
    .map((changes) => changes.reduce((whole, [place, part]) => withPart(whole, place, part), sound));
}

function placesIn(thing: unknown, place: readonly string[] = []): (readonly string[])[] {
  if (typeof thing !== 'object' || thing === null || place.length > 4) return [place];
  return [
    place,
    ...Object.entries(thing)
      .slice(0, 12)
      .flatMap(([key, inner]) => placesIn(inner, [...place, key])),
  ];
}

function withPart(thing: unknown, [key, ...rest]: readonly string[], part: unknown): unknown {
  if (key === undefined) return part;
  if (Array.isArray(thing))
    return thing.map((item: unknown, i) => (String(i) === key ? withPart(item, rest, part) : item));
  if (typeof thing !== 'object' || thing === null) return thing;
  return { ...thing, [key]: withPart(Object.entries(thing).find(([k]) => k === key)?.[1], rest, part) };
}
