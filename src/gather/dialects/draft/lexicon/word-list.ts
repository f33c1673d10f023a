import { beginnings } from './beginnings.js';
import { bodyOf, type Edge, edgesOf, expressionOf, expressionOfAll } from './word-expression.js';

/** Maximum number of words. */
const USUAL = /^[a-z0-9][a-z0-9_]*\*?$/;
/** Words that are not expressions. */
const PLAIN = /^[^\\^$.|?*+()[\]{}]+$/;
const LATIN = /^[a-z0-9]/;

/** An entry of a list. */
interface Word {
  /** Its beginning, or all of it. */
  readonly text: string;
  readonly before: Edge;
  readonly behind: Edge;
  /** The whole word if it is an expression, tried where its beginning occurs. */
  readonly whole: RegExp | null;
}

/**
 * A list of words to search for in plain words. `expos*` stands for every word with this beginning, `*rad` for every
 * word with this ending, `wieder_da` for consecutive words; words in Chinese, Japanese and Korean match anywhere. A
 * word may be a regular expression, `list[oa]`.
 */
export function wordList(words: string): WordList {
  return new WordList(words);
}

/**
 * Finds what a single expression of all its words would, ten times as fast: at each position of a text only words
 * beginning with the two characters there are compared, and none of a thousand words needs compiling.
 */
export class WordList {
  /** By the first two characters. */
  private readonly words = new Map<number, Word[]>();
  /** Those of one character. */
  private readonly single = new Map<number, Word[]>();
  /** Those that may begin inside others, or after a digit. */
  private readonly inner: Word[] = [];
  /** Those that may begin with anything. */
  private readonly rest: RegExp | null;
  /** The number of this list. */
  private readonly number = lists++;

  constructor(private readonly list: string) {
    const rest: string[] = [];
    for (const word of new Set(list.split(/\s+/))) if (word !== '' && !this.isKept(word)) rest.push(expressionOf(word));
    this.rest = rest.length === 0 ? null : new RegExp(rest.join('|'), 'u');
  }

  /** Whether one of them occurs in a text. */
  test(text: string): boolean {
    const { answers } = scanOf(text);
    const known = answers[this.number];
    if (known !== undefined && known !== UNKNOWN) return known === FOUND;
    const isFound = this.firstOf(text) >= 0 || this.firstInner(text) >= 0 || this.rest?.test(text) === true;
    answers[this.number] = isFound ? FOUND : MISSING;
    return isFound;
  }

  /** Position of the first of them in a text, −1 if there is none. */
  indexIn(text: string): number {
    const found = [this.firstOf(text), this.firstInner(text), this.rest?.exec(text)?.index ?? -1].filter(
      (index) => index >= 0,
    );
    return found.length === 0 ? -1 : Math.min(...found);
  }

  /**
   * All of them as one expression, for iterating over a text. Of two at one position it matches the earlier in the
   * list.
   */
  expression(flags: 'u' | 'gu'): RegExp {
    return new RegExp(expressionOfAll(this.list), flags);
  }

  private isKept(word: string): boolean {
    if (USUAL.test(word)) {
      const isBeginning = word.endsWith('*');
      const text = (isBeginning ? word.slice(0, -1) : word).replaceAll('_', ' ');
      this.keep({ text, before: 'latin', behind: isBeginning ? 'none' : 'latin', whole: null });
      return true;
    }
    const body = bodyOf(word);
    const isPlain = PLAIN.test(body);
    const first = isPlain ? [body] : beginnings(body);
    if (first === null || first.some((text) => SURROGATE.test(text))) return false;
    const whole = isPlain ? null : new RegExp(expressionOf(word), 'uy');
    const [before, behind] = edgesOf(word);
    for (const text of first) this.keep({ text, before, behind, whole });
    return true;
  }

  private keep(word: Word): void {
    const { text, before } = word;
    // After a digit no word of Latin letters begins, except one that may have any neighbours but letters.
    if (LATIN.test(text) && before !== 'latin') this.inner.push(word);
    else {
      const [map, key] =
        text.length === 1
          ? [this.single, text.charCodeAt(0)]
          : [this.words, keyOf(text.charCodeAt(0), text.charCodeAt(1))];
      const others = map.get(key);
      if (others === undefined) map.set(key, [word]);
      else others.push(word);
    }
  }

  private firstOf(text: string): number {
    const { places, keys } = scanOf(text);
    const { words, single } = this;
    for (let i = 0; i < places.length; i++) {
      const at = places[i] ?? 0;
      const begun = words.get(keys[i] ?? 0);
      if (begun !== undefined && standsAt(begun, text, at)) return at;
      const one = single.size === 0 ? undefined : single.get(text.charCodeAt(at));
      if (one !== undefined && standsAt(one, text, at)) return at;
    }
    return -1;
  }

  private firstInner(text: string): number {
    let first = -1;
    for (const word of this.inner)
      for (let at = text.indexOf(word.text); at >= 0 && (first < 0 || at < first); at = text.indexOf(word.text, at + 1))
        if (isWhole(word, text, at)) first = at;
    return first;
  }
}

const SURROGATE = /^[\ud800-\udfff]/;

/** Two characters as one number. Collisions are possible: candidates are compared. */
function keyOf(first: number, second: number): number {
  return (first << 15) ^ second;
}

let lists = 0;

interface Scan {
  /** Positions where words may begin. */
  readonly places: readonly number[];
  /** The first characters there. */
  readonly keys: readonly number[];
  /** By list number, whether one of its words occurs in the text. */
  readonly answers: Uint8Array;
}

const [UNKNOWN, MISSING, FOUND] = [0, 1, 2];

/** One text is searched for many lists, and for most of them repeatedly when its line is queried again. */
const KEPT = 4000;
const kept = new Map<string, Scan>();
let lastText = '';
let lastScan = scanned('');

function scanOf(text: string): Scan {
  if (text === lastText && lastScan.answers.length === lists) return lastScan;
  let scan = kept.get(text);
  // It has no room for lists created later.
  if (scan === undefined || scan.answers.length < lists) {
    if (kept.size >= KEPT) kept.clear();
    scan = scanned(text);
    kept.set(text, scan);
  }
  lastText = text;
  lastScan = scan;
  return scan;
}

function scanned(text: string): Scan {
  const places: number[] = [];
  const keys: number[] = [];
  let isWithin = false;
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    const isLatin = isLatinCode(code);
    if (!isWithin || !isLatin) {
      places.push(at);
      keys.push(keyOf(code, at + 1 < text.length ? text.charCodeAt(at + 1) : 0));
    }
    isWithin = isLatin;
  }
  return { places, keys, answers: new Uint8Array(lists) };
}

/** `a` to `z`, or a digit. */
function isLatinCode(code: number): boolean {
  return (code >= 97 && code <= 122) || (code >= 48 && code <= 57);
}

function standsAt(words: readonly Word[], text: string, at: number): boolean {
  for (const word of words) if (text.startsWith(word.text, at) && isWhole(word, text, at)) return true;
  return false;
}

function isWhole({ text: word, before, behind, whole }: Word, text: string, at: number): boolean {
  if (whole !== null) {
    whole.lastIndex = at;
    return whole.test(text);
  }
  const end = at + word.length;
  if (before === 'latin' && at > 0 && isLatinCode(text.charCodeAt(at - 1))) return false;
  if (behind === 'latin') return end >= text.length || !isLatinCode(text.charCodeAt(end));
  if (before === 'letter' && /\p{L}$/u.test(text.slice(Math.max(0, at - 2), at))) return false;
  return behind === 'none' || !/^\p{L}/u.test(text.slice(end, end + 2));
}
