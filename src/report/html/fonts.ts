import { readFileSync } from 'node:fs';
import { oncePer } from '../../model/index.js';
import { fontFile } from '../package-files.js';

interface Face {
  readonly family: string;
  readonly stem: string;
  readonly weight: number;
}

const FACES: readonly Face[] = [
  { family: 'Source Sans 3', stem: 'source-sans-3', weight: 400 },
  { family: 'Source Sans 3', stem: 'source-sans-3', weight: 600 },
  { family: 'Source Serif 4', stem: 'source-serif-4', weight: 400 },
  { family: 'Source Serif 4', stem: 'source-serif-4', weight: 600 },
];

type Range = readonly [number, number];

function parseRanges(text: string): Range[] {
  return text.split(',').map((part): Range => {
    const [from = '0', to] = part.trim().replace('U+', '').split('-');
    return [Number.parseInt(from, 16), Number.parseInt(to ?? from, 16)];
  });
}

/** A subset of a face, as divided by its package. */
interface Subset {
  readonly face: Face;
  readonly name: string;
  /** As the package writes the letters. */
  readonly ranges: string;
  readonly letters: readonly Range[];
}

/** What a process needs for each of its pages is read once. */
const subsetsOf = oncePer((face: Face): readonly Subset[] => {
  const listed = JSON.parse(readFileSync(fontFile(face.stem, 'unicode.json'), 'utf8')) as Record<string, string>;
  return Object.entries(listed).map(([name, ranges]) => ({
    face,
    name: name.replaceAll(/[[\]]/g, ''),
    ranges,
    letters: parseRanges(ranges),
  }));
});

const ruleOf = oncePer(({ face: { family, stem, weight }, name, ranges }: Subset): string => {
  const bytes = readFileSync(fontFile(stem, `files/${stem}-${name}-${weight}-normal.woff2`));
  return (
    `@font-face{font-family:"${family}";font-weight:${weight};font-style:normal;font-display:block;` +
    `src:url(data:font/woff2;base64,${bytes.toString('base64')}) format("woff2");unicode-range:${ranges}}`
  );
});

function isNeeded({ name, letters }: Subset, characters: ReadonlySet<number>): boolean {
  if (name === 'latin') return true;
  for (const character of characters)
    if (letters.some(([from, to]) => character >= from && character <= to)) return true;
  return false;
}

/**
 * `@font-face` rules with embedded fonts: for each face the Latin subset, and any others that contain a letter of the
 * text, so that a name in Greek or Polish is set in the same face and no page carries unused letters.
 *
 * @param text everything the page will show
 */
export function fontFaces(text: string): string {
  const characters = new Set(
    (text.match(/[\u0100-\u{10ffff}]/gu) ?? []).map((character) => character.codePointAt(0) ?? 0),
  );
  return FACES.flatMap((face) => subsetsOf(face).filter((subset) => isNeeded(subset, characters)))
    .map(ruleOf)
    .join('\n');
}
