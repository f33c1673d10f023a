import { fold } from './fold.js';
import { keysOf } from './table.js';

interface FilterRow {
  /** A band of many colours, a narrow one around an emission line, or no filter at all. */
  readonly kind: 'broad' | 'narrow' | 'none';
  /** Central wavelength, nm. `null`: not suitable for extinction. */
  readonly wavelengthNm: number | null;
  /** Its natural colour among the design's tokens, `filter-…`; `null`: one of the generic colours. */
  readonly colour: string | null;
  /** Ways to write it, folded to letters and digits. Common practice, no source. */
  readonly spellings: readonly string[];
}

/**
 * Common filters. Lines: H I 6563 Å and 4861 Å, [O III] 5007 Å, [S II] 6716 and 6731 Å (their mean), [N II] 6583 Å.
 * Broad bands: common practice, no source.
 */
export const FILTERS = {
  L: {
    kind: 'broad',
    wavelengthNm: 550,
    colour: 'l',
    spellings: ['l', 'lum', 'luminance', 'luminosity', 'luminanz', 'luminancia', 'clear'],
  },
  R: { kind: 'broad', wavelengthNm: 635, colour: 'r', spellings: ['r', 'red', 'rot', 'rojo', 'rouge'] },
  G: { kind: 'broad', wavelengthNm: 530, colour: 'g', spellings: ['g', 'green', 'grün', 'gruen', 'verde', 'vert'] },
  B: { kind: 'broad', wavelengthNm: 450, colour: 'b', spellings: ['b', 'blue', 'blau', 'azul', 'bleu'] },
  Ha: {
    kind: 'narrow',
    wavelengthNm: 656.3,
    colour: 'ha',
    spellings: ['ha', 'hα', 'halpha', 'halfa', 'hydrogenalpha', 'hydrogenα'],
  },
  Hb: {
    kind: 'narrow',
    wavelengthNm: 486.1,
    colour: null,
    spellings: ['hb', 'hβ', 'hbeta', 'hydrogenbeta', 'hydrogenβ'],
  },
  OIII: { kind: 'narrow', wavelengthNm: 500.7, colour: 'oiii', spellings: ['oiii', 'o3', 'oxygeniii', 'oxygen3'] },
  SII: {
    kind: 'narrow',
    wavelengthNm: 672.4,
    colour: 'sii',
    spellings: ['sii', 's2', 'sulfurii', 'sulphurii', 'sulfur2', 'sulphur2'],
  },
  NII: { kind: 'narrow', wavelengthNm: 658.3, colour: null, spellings: ['nii', 'n2', 'nitrogenii', 'nitrogen2'] },
  None: {
    kind: 'none',
    wavelengthNm: null,
    colour: null,
    spellings: ['none', 'nofilter', 'sinfiltro', 'ohnefilter', 'sansfiltre'],
  },
} as const satisfies Readonly<Record<string, FilterRow>>;

export type FilterName = keyof typeof FILTERS;
export const FILTER_NAMES = keysOf(FILTERS);

const BY_SPELLING: ReadonlyMap<string, FilterName> = new Map(
  FILTER_NAMES.flatMap((name) => FILTERS[name].spellings.map((spelling) => [spelling, name] as const)),
);

/** A bandwidth at the end of a name, `3nm`, `6.5 nm`. */
const WIDTH = /[\s_-]*\d+(?:[.,]\d+)?\s*nm\b.*$/iu;

/** A filter's row, with its columns in general. */
export function filterRow(name: FilterName): FilterRow {
  return FILTERS[name];
}

/** The filter spelled by a whole name, `null` for another name: the standard name that may replace it. */
export function filterSpelt(name: string): FilterName | null {
  return BY_SPELLING.get(fold(name)) ?? null;
}

/**
 * The filter meant by a name: by the whole of it, without a bandwidth at its end, by its first word, or by the
 * wavelength of a line. `Ha 3nm`, `[O III]`, `L 2in`, `656.3 nm`. `null` for any other name.
 */
export function filterMeant(name: string): FilterName | null {
  const [firstWord = ''] = name.trim().split(/[\s_,/]+/);
  return filterSpelt(name) ?? filterSpelt(name.replace(WIDTH, '')) ?? filterSpelt(firstWord) ?? lineAt(name);
}

/** Tolerance of a stated wavelength relative to a line's, nm: [S II] is a pair, and many round. */
const LINE_NM = 1;

/** The line filter of a wavelength, `656.3`, `672 nm`; `null` where none is near. */
function lineAt(name: string): FilterName | null {
  const nm = Number(/^\s*(\d{3}(?:[.,]\d{1,2})?)\s*(?:nm)?\s*$/i.exec(name)?.[1]?.replace(',', '.'));
  const isNear = ({ kind, wavelengthNm }: FilterRow): boolean =>
    kind === 'narrow' && wavelengthNm !== null && Math.abs(wavelengthNm - nm) <= LINE_NM;
  return FILTER_NAMES.find((filter) => isNear(filterRow(filter))) ?? null;
}

/**
 * Whether a filter tolerates moonlight: a narrow band around an emission line, by its name or a bandwidth in
 * nanometres.
 *
 * @param more names, in lower case, that the user counts among them
 */
export function isNarrowband(name: string, more: ReadonlySet<string> = new Set()): boolean {
  if (more.has(name.trim().toLowerCase())) return true;
  const [firstPart = ''] = name.trim().split(/[^\p{L}\p{N}]+/u);
  const meant = filterMeant(name) ?? filterSpelt(firstPart);
  return (
    (meant !== null && FILTERS[meant].kind === 'narrow') ||
    /\d\s*nm\b|narrow|\b(?:dual|duo|tri|quad)[\s-]?band\b/i.test(name)
  );
}

/** Central wavelength of the filter meant by a name, nm; `null` for another name. */
export function filterWavelengthNm(name: string): number | null {
  const meant = filterMeant(name);
  return meant === null ? null : FILTERS[meant].wavelengthNm;
}
