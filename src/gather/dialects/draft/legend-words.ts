import { saysMotion } from './lexicon/said.js';

/**
 * Entries separated by slashes, with marks of one or two words: `points = wheel turns / points lie = filter is there`.
 */
const STROKES = /\s\/\s/;
const MARK = String.raw`\p{L}[^\s=,;]{0,13}(?: [^\s=,;]{1,13})?`;
const ENTRY = new RegExp(String.raw`^(${MARK}(?:, ${MARK})?)\s+=\s+(\p{L}[^=]*)$`, 'u');
/** Codes, one or two together, two blanks before their meaning: `WH  wheel turns, WH K  filter is there`. */
const CODE = String.raw`[\p{Lu}\d][\p{Lu}\d+*<>=!?.-]{0,5}`;
const CODES = new RegExp(String.raw`^(${CODE})(?: (\/ )?(${CODE}))?\s{2,}(\p{L}.*)$`, 'u');
const NEXT_CODE = new RegExp(String.raw`\s{3,}|, (?=${CODE}(?: (?:\/ )?${CODE})?\s{2})`, 'u');
/** A code used in the log, and the text after it up to the next, or to a gap: `EX+ begins  EX- ends`. */
const USED_CODE = /^(?=.*\p{Lu})[\p{Lu}\d][\p{Lu}\d+*<>=!?.:-]{1,4}$/u;
const MEANT = /^\p{L}[^()]*?(?=\s{2}|\s?[;,(]|$)/u;
const MIN_USED = 5;
/** Such a code of two to four capitals or digits, and what it means. */
const IN_COLUMN = /^(\p{Lu}[\p{Lu}\d+*<>=!?.-]{1,3})\s(\p{L}.*)$/u;
/** A word that says what follows: `codes OPN shutter opens`. */
const ALONE = /^\p{L}{3,}:?$/u;
const LABEL = /^\p{L}?\p{Ll}{2,}:?\s+(?=\p{Lu}[\p{Lu}\d+*<>=!?.-]{1,3}\s\p{L})/u;
const BEFORE_CODE = /\s(?=\p{Lu}[\p{Lu}\d+*<>=!?.-]{1,3}\s\p{L})/u;
/** A short code alone on its line, in upper or lower case: `a1  waits for the guiding to calm down`. */
const SHORT = /^([\p{L}\d]{1,3})\s{2,}(\p{L}[^:]*)/u;
const MIN_SHORT = 5;
/** Marks before a header's words: comments, bullets. */
export const COMMENT = /^\s*(?:[;#%*•]+|\/\/|--+)\s*/u;
/** Introduces the first of them: `Messages: ab = …`. */
const INTRODUCED = /^\p{L}+: (?=.*=)/u;
/** An abbreviation is among this many first parts of a message. */
export const HEAD_PIECES = 3;
/** Minimum number of entries; fraction that must occur in the log below. */
const MIN_ENTRIES = 3;
const IN_USE = 0.5;

/**
 * The meanings that a log's head assigns to the first words of messages, in a jargon of its own: entries with an equals
 * sign, separated by slashes. Empty if messages hardly begin with them.
 *
 * @param wordings the log's messages, with or without a name in front
 */
export function phrasesIn(head: readonly string[], wordings: readonly string[]): ReadonlyMap<string, string> {
  const lines = head.map((line) => line.replace(COMMENT, '').trim());
  const alone = lines.flatMap((line) => (line.split(NEXT_CODE).length === 1 ? codeIn(line) : []));
  const used = new Set(wordings.flatMap((wording) => beginnings(wording)));
  const phrases = new Map([
    ...codesInColumns(lines, used),
    ...usedCodes(lines, used),
    ...shortCodes(head),
    ...(alone.length >= MIN_ENTRIES ? alone : []),
    ...lines.flatMap((line) => [...entriesIn(line), ...codesIn(line)]),
  ]);
  const inUse = [...phrases.keys()].filter((phrase) => used.has(phrase)).length;
  return phrases.size >= MIN_ENTRIES && inUse >= IN_USE * phrases.size ? phrases : new Map();
}

/** The short codes explained one per line at the head, and their meanings; other heads have few of them. */
export function shortCodes(head: readonly string[]): ReadonlyMap<string, string> {
  const found = head.flatMap((line): Entry[] => {
    const [, code = '', meaning = ''] = SHORT.exec(line.replace(COMMENT, '').trim()) ?? [];
    return code === '' ? [] : [[code, meaning.trim()]];
  });
  return new Map(found.length >= MIN_SHORT ? found : []);
}

/** The codes of the log's messages that header lines explain, any number per line. */
function usedCodes(lines: readonly string[], used: ReadonlySet<string>): readonly Entry[] {
  const found = lines.flatMap((line): Entry[] => {
    const codes = [...line.matchAll(/\S+/g)].filter(([word]) => USED_CODE.test(word) && used.has(word));
    if (codes[0]?.index !== 0) return [];
    return codes.flatMap(([code], i): Entry[] => {
      const from = (codes[i]?.index ?? 0) + code.length;
      const [meaning = ''] = MEANT.exec(line.slice(from, codes[i + 1]?.index).trim()) ?? [];
      return meaning === '' ? [] : [[code, meaning.trim()]];
    });
  });
  // Codes without a sign may leave the outcome to another word, or to a mark next to them.
  const signed = found.filter(([code]) => /[^\p{L}\d]$/u.test(code)).length;
  return found.length >= MIN_USED && signed >= found.length / 2 ? found : [];
}

/** Codes a blank before what they mean, set in columns: `XO shutter opened      XC shutter closed`. */
function codesInColumns(lines: readonly string[], used: ReadonlySet<string>): readonly Entry[] {
  const found = lines.flatMap((line): Entry[] => {
    // A long meaning may reach up to the next code.
    const parts = line
      .replace(LABEL, '')
      .split(/\s{2,}/)
      .filter((part, i) => i > 0 || !ALONE.test(part) || used.has(part))
      .flatMap((part) => part.split(BEFORE_CODE).reduce<string[]>(joinedUnless(used), []));
    const entries = parts.map((part): Entry | null => {
      const [, code, meaning] = IN_COLUMN.exec(part) ?? [];
      return code === undefined || meaning === undefined ? null : [code, meaning];
    });
    const own = entries.filter((entry) => entry !== null);
    // `who HR heron  WR wren  MT mount`: those who do it.
    return entries[0] === null || own.every(([, meaning]) => !meaning.includes(' ')) ? [] : own;
  });
  const inUse = found.filter(([code]) => used.has(code)).length;
  // Behind codes of a head there may be what values they have.
  const telling = found.filter(([, meaning]) => saysMotion(meaning)).length;
  return inUse >= Math.max(MIN_USED, IN_USE * found.length) && telling >= IN_USE * found.length ? found : [];
}

/** A reducer that appends a part to the previous one unless it begins with a code that the log uses. */
function joinedUnless(used: ReadonlySet<string>): (parts: string[], text: string) => string[] {
  return (parts, text) => {
    const last = parts.pop();
    if (last === undefined) return [text];
    return used.has(text.split(' ')[0] ?? '') ? [...parts, last, text] : [...parts, `${last} ${text}`];
  };
}

/** The meaning of the phrase at the beginning of a message; `undefined` if there is none. */
export function meaningOf(wording: string, phrases: ReadonlyMap<string, string>): string | undefined {
  if (phrases.size === 0) return undefined;
  return beginnings(wording)
    .map((phrase) => phrases.get(phrase))
    .find((meaning) => meaning !== undefined);
}

/** The first two words and the first word of a message, and those after a leading name. */
function beginnings(wording: string): readonly string[] {
  const [a = '', b = '', c = ''] = wording.split(/\s+/);
  return [`${a} ${b}`, a, `${b} ${c}`, b];
}

type Entry = readonly [mark: string, words: string];

function entriesIn(text: string): readonly Entry[] {
  const parts = text.replace(INTRODUCED, '').split(STROKES);
  if (parts.length < 2) return [];
  const entries = parts.map((part): Entry[] => {
    const [, left = '', right = ''] = ENTRY.exec(part.trim()) ?? [];
    if (left === '') return [];
    const marks = left.split(', ');
    return marks.length === 1 ? marks.map((mark) => [mark, right]) : eachOf(marks, right);
  });
  return entries.every((own) => own.length > 0) ? entries.flat() : [];
}

function codesIn(text: string): readonly Entry[] {
  const parts = text.split(NEXT_CODE);
  if (parts.length < 2) return [];
  const entries = parts.map(codeIn);
  return entries.every((own) => own.length > 0) ? entries.flat() : [];
}

function codeIn(part: string): Entry[] {
  const [, one = '', stroke, other, meaning = ''] = CODES.exec(part) ?? [];
  if (one === '') return [];
  if (other === undefined) return [[one, meaning]];
  const isTwo = stroke !== undefined || (one.slice(0, -1) === other.slice(0, -1) && one.length > 1);
  return isTwo ? eachOf([one, other], meaning) : [[`${one} ${other}`, meaning]];
}

/** `calm on, calm off = settling begins, is over`: the first word applies to the others as well. */
function eachOf(marks: readonly string[], meaning: string): Entry[] {
  const meanings = meaning.split(/, | \/ /);
  const [first = ''] = meaning.split(' ');
  if (meanings.length !== marks.length) return marks.map((mark) => [mark, meaning]);
  return marks.map((mark, i) => [mark, i === 0 ? (meanings[0] ?? '') : `${first} ${meanings[i] ?? ''}`]);
}
