/** Panels of a mosaic, as imagers append them to a target's name. Usual forms; common practice, no source. */

/** `panel 2`, `pane-03`, `tile1`, `part 2`, `mosaic 4`; `mosaic 2x3` is all of them. */
const BY_WORD = /(?<![A-Za-z0-9])(?:panel|pane|pan|tile|part|mosaic|mos)[-_ #]{0,2}0{0,2}([1-9][0-9]?)(?![A-Za-z0-9])/i;
/** `panel A`. */
const BY_LETTER = /(?<![A-Za-z0-9])(?:panel|pane|tile)[-_ ]([A-H])(?![A-Za-z0-9])/i;
/** `r1c2`, `row 1 col 2`. */
const BY_PLACE =
  /(?<![A-Z0-9])(?:panel[-_ ])?r(?:ow)?[-_ ]?0?(\d{1,2})[-_ ,]{0,2}c(?:ol(?:umn)?)?[-_ ]?0?(\d{1,2})(?![A-Z0-9])/i;
/** `_P1`, `-p02`, ` P 3`. Short, and used for other things: only directly after the name of the whole. */
const SHORT = /[-_ ]{1,3}p[-_ ]?0{0,2}([1-9][0-9]?)(?![A-Za-z0-9])/iy;
const SHORT_AT_END = /[-_ ]{1,3}p[-_ ]?0{0,2}([1-9][0-9]?)\s*$/i;
/** `C/2023 P1` is a comet: half a month of a year. */
const YEAR_AT_END = /(?<![A-Za-z0-9])[CPDXAI]?(?:1[89]|20)\d\d$/i;

/** A panel found in a text. */
export interface PanelPart {
  /** `2`, `A`, `r1c2`. */
  readonly label: string;
  /** The text without it. */
  readonly rest: string;
}

/** The panel that a text names explicitly. */
export function panelIn(text: string): PanelPart | null {
  const word = BY_WORD.exec(text);
  if (word) return without(text, word, String(Number(word[1])));
  const letter = BY_LETTER.exec(text);
  if (letter) return without(text, letter, String(letter[1]).toUpperCase());
  const place = BY_PLACE.exec(text);
  return place ? without(text, place, `r${Number(place[1])}c${Number(place[2])}`) : null;
}

/** The panel directly after an object's designation, including the short form. @param end of the designation */
export function panelBehind(text: string, end: number): PanelPart | null {
  const inWords = panelIn(text);
  if (inWords) return inWords;
  SHORT.lastIndex = end;
  const short = SHORT.exec(text);
  return short ? without(text, short, String(Number(short[1]))) : null;
}

/** The panel at the end of a name outside all catalogues. */
export function panelAtEnd(name: string): PanelPart | null {
  const inWords = panelIn(name);
  const short = inWords ? null : SHORT_AT_END.exec(name);
  const part = inWords ?? (short ? without(name, short, String(Number(short[1]))) : null);
  return part === null || part.rest === '' || (short && YEAR_AT_END.test(part.rest)) ? null : part;
}

function without(text: string, match: RegExpExecArray, label: string): PanelPart {
  const rest = `${text.slice(0, match.index)} ${text.slice(match.index + match[0].length)}`;
  return { label, rest: rest.replace(/\s+/g, ' ').replace(/^[-_ ]+|[-_ ]+$/g, '') };
}
