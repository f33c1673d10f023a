/**
 * Catalogue designations in free text: file names, folders, OBJECT cards. `M31`, `M 31`, `messier_31` and `NGC0224` are
 * read as `M 31` and `NGC 224`.
 */
import { fold } from '../vocabulary/index.js';
import { panelAtEnd, panelBehind, panelIn, type PanelPart } from './panel.js';

/**
 * Catalogues used by amateur imagers, their spellings and the largest number in each. Common knowledge of the trade;
 * from memory.
 */
const CATALOGUES: readonly { readonly name: string; readonly spelled: string; readonly largest: number }[] = [
  { name: 'M', spelled: 'messier|m', largest: 110 },
  { name: 'NGC', spelled: 'ngc', largest: 7840 },
  { name: 'IC', spelled: 'ic', largest: 5386 },
  { name: 'Sh2-', spelled: 'sh[-_ ]?2[-_ ]', largest: 313 },
  { name: 'vdB', spelled: 'vdb', largest: 158 },
  { name: 'LDN', spelled: 'ldn', largest: 1802 },
  { name: 'LBN', spelled: 'lbn', largest: 1125 },
  { name: 'Barnard', spelled: 'barnard|b', largest: 370 },
  { name: 'Abell', spelled: 'abell', largest: 4076 },
  { name: 'Caldwell', spelled: 'caldwell', largest: 109 },
];

/**
 * No letters or digits on either side, so that `Bin2` or `frame31` name nothing; optionally a blank or a hyphen
 * between.
 */
const PATTERNS = CATALOGUES.map(({ name, spelled, largest }) => ({
  name,
  largest,
  pattern: new RegExp(`(?<![A-Za-z0-9])(?:${spelled})[-_ ]?0{0,3}([1-9][0-9]{0,3})(?![A-Za-z0-9])`, 'i'),
}));

/** The letters of a designation in this program's spelling, `NGC 281`, as a pattern: they precede its blank. */
export const SPELT_LETTERS = `(?<![\\p{L}\\d])(?:${CATALOGUES.map(({ name }) => name).join('|')}) `;
/** And its number. */
export const SPELT_NUMBER = '(?=[1-9]\\d{0,3}(?![\\p{L}\\d]))';

/** The same object under two designations of the large catalogues. From memory. */
const SAME: Readonly<Record<string, string>> = {
  'NGC 224': 'M 31',
  'NGC 598': 'M 33',
  'NGC 1976': 'M 42',
  'NGC 1952': 'M 1',
  'NGC 3031': 'M 81',
  'NGC 3034': 'M 82',
  'NGC 5194': 'M 51',
  'NGC 5457': 'M 101',
  'NGC 6205': 'M 13',
  'NGC 6618': 'M 17',
  'NGC 6611': 'M 16',
  'NGC 6523': 'M 8',
  'NGC 6514': 'M 20',
  'NGC 6720': 'M 57',
  'NGC 6853': 'M 27',
};

/** The object named by a text. */
export interface Designation {
  /** In standard spelling: `M 31`, `Sh2-155`; followed by `panel 2` for a part of a mosaic. */
  readonly name: string;
  /** The whole object, if `name` is a part of it. */
  readonly parent?: string;
  /** Which part that is. */
  readonly part?: PanelPart;
}

/**
 * The first designation in a text, or `null`. A bare `B 33` counts only with its number separated, for `B` is also a
 * filter.
 */
export function designationIn(text: string): Designation | null {
  const found = PATTERNS.flatMap(({ name, largest, pattern }) => {
    const match = pattern.exec(text);
    const number = match ? Number(match[1]) : 0;
    if (!match || number > largest || isFilterOfBin(match[0])) return [];
    const end = match.index + match[0].length;
    return [{ at: match.index, end, name: name.endsWith('-') ? `${name}${number}` : `${name} ${number}` }];
  }).sort((a, b) => a.at - b.at)[0];
  if (!found) return null;
  const whole = SAME[found.name] ?? found.name;
  const panel = panelBehind(text, found.end);
  return panel === null ? { name: whole } : { name: panelName(whole, panel.label), parent: whole, part: panel };
}

/** The whole object of a panel's name: `M 31` for `M31 panel 2`, `Veil` for `Veil P2`; else `null`. */
export function wholeOfPanel(name: string): string | null {
  return designationIn(name)?.parent ?? panelAtEnd(name)?.rest ?? null;
}

/**
 * The standard spelling of a panel: `NGC 253 panel 1` for `NGC253_P1`, `Veil panel 2` for `Veil tile-02`; `null` if a
 * name is not a panel's.
 */
export function panelSpelt(name: string): string | null {
  const part = designationIn(name)?.part ?? panelAtEnd(name);
  return part ? panelName(wholeDesignation(part.rest) ?? part.rest, part.label) : null;
}

function panelName(whole: string, label: string): string {
  return `${whole} panel ${label}`;
}

/** The designation that makes up a whole text: `NGC224` and `M 31` are one name; `M 31 halo` is another object. */
export function wholeDesignation(text: string): string | null {
  const trimmed = text.trim();
  const isWhole = PATTERNS.some(({ pattern }) => pattern.exec(trimmed)?.[0].length === trimmed.length);
  return isWhole ? (designationIn(trimmed)?.name ?? null) : null;
}

/** One key for all spellings of a designation, and for any other name. */
export function targetKey(name: string): string {
  return fold(wholeDesignation(name) ?? panelSpelt(name) ?? name);
}

/**
 * `B_1`, `B-0003`: the filter and a running number, not the catalogue of dark nebulae, whose numbers follow directly or
 * after a blank.
 */
function isFilterOfBin(match: string): boolean {
  return /^b[-_]/i.test(match) || /^m[-_]0/i.test(match);
}

/** The designation in a path: its file name first, then the folders from the inside out. */
export function designationOfPath(path: string): Designation | null {
  const parts = path.split('/').reverse();
  for (const [i, part] of parts.entries()) {
    const text = i === 0 ? part.replace(/\.(fits?|fts)(\.(gz|fz))?$/i, '') : part;
    // `B1.fits`, `B2.fits`: numbered frames through the blue filter, not nebulae.
    const found = i === 0 && /^b\d+$/i.test(text) ? null : designationIn(text);
    if (found) return withPanel(found, parts);
  }
  return null;
}

/** The panel may be in another part of the path than the object. */
function withPanel(found: Designation, parts: readonly string[]): Designation {
  if (found.parent !== undefined) return found;
  const part = parts.map(panelIn).find((p) => p !== null);
  return part ? { name: panelName(found.name, part.label), parent: found.name, part } : found;
}
