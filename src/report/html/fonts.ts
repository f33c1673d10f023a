import { readFileSync } from 'node:fs';
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

/** The unicode ranges of a font's subsets, as its package lists them. */
function subsetsOf(font: string): Readonly<Record<string, string>> {
  return JSON.parse(readFileSync(fontFile(font, 'unicode.json'), 'utf8')) as Record<string, string>;
}

function isNeeded(ranges: string, characters: ReadonlySet<number>): boolean {
  const parsed = parseRanges(ranges);
  for (const character of characters)
    if (parsed.some(([from, to]) => character >= from && character <= to)) return true;
  return false;
}

/**
 * `@font-face` rules with the fonts inside them: for each face the Latin subset, and those others that hold a letter
 * of the text, so that a name in Greek or Polish is set in the same hand and no page carries letters it never shows.
 *
 * @param text everything the page will show
 */
export function fontFaces(text: string): string {
  const characters = new Set(
    (text.match(/[\u0100-\u{10ffff}]/gu) ?? []).map((character) => character.codePointAt(0) ?? 0),
  );
  return FACES.flatMap(({ family, stem, weight }) =>
    Object.entries(subsetsOf(stem)).flatMap(([name, ranges]) => {
      const subset = name.replaceAll(/[[\]]/g, '');
      if (subset !== 'latin' && !isNeeded(ranges, characters)) return [];
      const bytes = readFileSync(fontFile(stem, `files/${stem}-${subset}-${weight}-normal.woff2`));
      return [
        `@font-face{font-family:"${family}";font-weight:${weight};font-style:normal;font-display:block;` +
          `src:url(data:font/woff2;base64,${bytes.toString('base64')}) format("woff2");unicode-range:${ranges}}`,
      ];
    }),
  ).join('\n');
}
