/**
 * FITS header cards: 80 bytes each, `KEYWORD = value / comment` (FITS Standard 4.0, section 4).
 *
 * Reading is lenient where a writer's slip leaves no doubt: lower-case keywords and exponents, free format,
 * missing quotes, bytes outside ASCII. Only wanted cards are parsed; any other costs one look-up.
 */
import { type CardValue, type HeaderText, parseString, parseValue } from './card-values.js';
import { END, HIERARCH, KeywordSet, keywordWords, normalKeyword, spells } from './keyword-set.js';
import type { HeaderNote } from './notes.js';

export const CARD_BYTES = 80;
export const BLOCK_BYTES = 2880;

const CARD_WORDS = CARD_BYTES / 4;
const VALUE_INDICATOR = 8;
const EQUALS = 0x3d;

const END_WORDS = keywordWords('END');
const CONTINUE_WORDS = keywordWords('CONTINUE');
/** Keywords that never have a value, even where `=` follows (section 4.4.2.4). */
const COMMENTARY: ReadonlySet<string> = new Set(['', 'COMMENT', 'HISTORY', 'CONTINUE', 'END']);

/** Header bytes, as text and as 32-bit words over the same memory; the first card starts at offset 0. */
export interface HeaderBytes extends HeaderText {
  readonly words: Int32Array;
}

/** Values by keyword. HIERARCH keywords stand without the word `HIERARCH`, single-spaced. */
export class Cards {
  constructor(
    private readonly keywords: KeywordSet,
    private readonly values: readonly (CardValue | undefined)[],
  ) {}

  /** A card's value, `null` when the card has none, `undefined` when there is no such card. */
  get(keyword: string): CardValue | undefined {
    const number = this.keywords.numberOf(keyword);
    return number === undefined ? undefined : this.values[number];
  }

  has(keyword: string): boolean {
    return this.get(keyword) !== undefined;
  }

  /** All cards that stand in the header. */
  toMap(): Map<string, CardValue> {
    const map = new Map<string, CardValue>();
    this.values.forEach((value, number) => {
      const keyword = this.keywords.names[number];
      if (value !== undefined && keyword !== undefined) map.set(keyword, value);
    });
    return map;
  }

  static from(map: ReadonlyMap<string, CardValue>): Cards {
    const keywords = new KeywordSet(map.keys());
    return new Cards(keywords, keywords.names.map((name) => map.get(name)));
  }
}

/** Cards that were read, and the index of the END card; −1 when it was not met. */
export interface ParsedCards {
  readonly cards: Cards;
  readonly end: number;
}

/**
 * Reads the wanted cards up to END. Of a keyword that stands twice the first counts, as in other FITS readers.
 *
 * @param cardCount whole cards at most to look at
 * @param notes receives what is odd about the cards themselves
 */
export function parseCards(header: HeaderBytes, cardCount: number, wanted: KeywordSet, notes: HeaderNote[]): ParsedCards {
  const { words, text } = header;
  const values = new Array<CardValue | undefined>(wanted.names.length).fill(undefined);
  for (let card = 0, word = 0; card < cardCount; card++, word += CARD_WORDS) {
    let number: number | undefined = wanted.find(words[word] as number, words[word + 1] as number);
    if (number < 0) continue;
    if (number === END) return { cards: new Cards(wanted, values), end: card };

    const start = card * CARD_BYTES;
    let equals = start + VALUE_INDICATOR;
    if (number === HIERARCH) {
      equals = text.indexOf('=', equals);
      if (equals === -1 || equals >= start + CARD_BYTES) continue;
      number = wanted.numberOf(hierarchKeyword(text, start, equals));
      if (number === undefined) continue;
    } else if (text.charCodeAt(equals) !== EQUALS) {
      continue;
    }

    let value = parseValue(header, equals, start + CARD_BYTES);
    if (typeof value === 'string' && value.endsWith('&')) value = continueString(header, value, card + 1, cardCount);
    const earlier = values[number];
    if (earlier === undefined) values[number] = value;
    else if (earlier !== value) notes.push(duplicateCard(wanted.names[number] ?? '', earlier, value));
  }
  return { cards: new Cards(wanted, values), end: -1 };
}

/** The keywords of all cards that may have a value. */
export function keywordsIn({ text }: HeaderBytes, cardCount: number): KeywordSet {
  const names: string[] = [];
  for (let start = 0; start < cardCount * CARD_BYTES; start += CARD_BYTES) {
    const name = text.slice(start, start + VALUE_INDICATOR).trimEnd().toUpperCase();
    if (name === 'HIERARCH') {
      const equals = text.slice(start, start + CARD_BYTES).indexOf('=');
      if (equals !== -1) names.push(hierarchKeyword(text, start, start + equals));
    } else if (text.charCodeAt(start + VALUE_INDICATOR) === EQUALS && !COMMENTARY.has(name)) {
      names.push(name);
    }
  }
  return new KeywordSet(names);
}

/** The index of the END card from a card on, or −1 when none stands before `cardCount`. */
export function findEnd(words: Int32Array, fromCard: number, cardCount: number): number {
  for (let card = fromCard; card < cardCount; card++) if (isCard(words, card, END_WORDS)) return card;
  return -1;
}

/** The index of the first card whose keyword is not printable ASCII, where pixels begin if END is missing; −1 for none. */
export function findNonText(words: Int32Array, cardCount: number): number {
  for (let card = 0, word = 0; card < cardCount; card++, word += CARD_WORDS) {
    if (!isPrintable(words[word] as number) || !isPrintable(words[word + 1] as number)) return card;
  }
  return -1;
}

/** All four bytes within 0x20…0x7f: no high bit, and one of the next two set. */
function isPrintable(word: number): boolean {
  return (word & 0x80808080) === 0 && ((word | (word << 1)) & 0x40404040) === 0x40404040;
}

function isCard(words: Int32Array, card: number, keyword: readonly [number, number]): boolean {
  return spells(words[card * CARD_WORDS] as number, words[card * CARD_WORDS + 1] as number, keyword);
}

function hierarchKeyword(text: string, start: number, equals: number): string {
  return normalKeyword(text.slice(start + VALUE_INDICATOR, equals));
}

/** Appends the CONTINUE cards that follow a string ending in `&` (section 4.2.1.2); without one the `&` is literal. */
function continueString(header: HeaderBytes, beginning: string, fromCard: number, cardCount: number): string {
  let value = beginning;
  for (let card = fromCard; card < cardCount && value.endsWith('&'); card++) {
    if (!isCard(header.words, card, CONTINUE_WORDS)) break;
    const start = card * CARD_BYTES + VALUE_INDICATOR;
    const end = (card + 1) * CARD_BYTES;
    const indent = header.text.slice(start, end).search(/[^ ]/);
    if (indent === -1 || header.text[start + indent] !== "'") break;
    value = value.slice(0, -1) + parseString(header, start + indent, end);
  }
  return value;
}

function duplicateCard(card: string, first: CardValue, second: CardValue): HeaderNote {
  return {
    code: 'duplicate-card',
    card,
    what: `${card} stands twice with different values, ${show(first)} and ${show(second)}; the first was used`,
    remedy: 'Make the capture program write the keyword once.',
  };
}

/** A value as it may stand in a message. */
export function show(value: CardValue): string {
  return typeof value === 'string' ? `'${value}'` : String(value);
}
