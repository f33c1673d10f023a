/**
 * FITS header cards: 80 bytes each, `KEYWORD = value / comment` (FITS Standard 4.0, section 4).
 *
 * Reading is lenient where a writer's slip leaves no doubt: lower-case keywords and exponents, free format,
 * missing quotes, bytes outside ASCII. Only wanted cards are parsed; any other costs one look-up.
 */
import { itemAt } from '../../model/collections.js';
import { plainValue } from './card-bytes.js';
import { type CardValue, parseRemark, parseString, parseValue } from './card-values.js';
import { ANYTHING } from './header-layouts.js';
import { END, HIERARCH, KeywordSet, keywordWords, NOT_WANTED, normalKeyword, spells } from './keyword-set.js';
import { type HeaderNote, show } from './notes.js';

export const CARD_BYTES = 80;
export const BLOCK_BYTES = 2880;

const CARD_WORDS = CARD_BYTES / 4;
const VALUE_INDICATOR = 8;
const EQUALS = 0x3d;
const NOT_FOUND = -1;

const END_WORDS = keywordWords('END');
const CONTINUE_WORDS = keywordWords('CONTINUE');
/** Keywords that never have a value, even where `=` follows (section 4.4.2.4). */
const COMMENTARY: ReadonlySet<string> = new Set(['', 'COMMENT', 'HISTORY', 'CONTINUE', 'END']);

/** Header bytes, and the same memory as 32-bit words; the first card starts at offset 0. */
export interface HeaderBytes {
  readonly bytes: Buffer;
  readonly words: Int32Array;
}

/** Values of one header. HIERARCH keywords are stored without the word `HIERARCH`, single-spaced. */
export class Cards {
  /**
   * @param keywords the requested keywords
   * @param values by the keyword's number; `undefined` if there is no such card
   * @param layout the same object for headers with the same cards; `undefined` if not known to be like another
   */
  constructor(
    private readonly keywords: KeywordSet,
    private readonly values: readonly (CardValue | undefined)[],
    private readonly layout?: object,
  ) {}

  /** A card's value, `null` when the card has none, `undefined` when there is no such card. */
  get(keyword: string): CardValue | undefined {
    const number = this.keywords.numberOf(keyword);
    return number === undefined ? undefined : this.values[number];
  }

  has(keyword: string): boolean {
    return this.get(keyword) !== undefined;
  }

  /** Values by the numbers of a set: without a look-up where the cards were read with it. */
  valuesBy(keywords: KeywordSet): readonly (CardValue | undefined)[] {
    return keywords === this.keywords ? this.values : keywords.names.map((name) => this.get(name));
  }

  /** What stands for all headers with the same of a set's cards, if this is known to be like one before. */
  layoutBy(keywords: KeywordSet): object | undefined {
    return keywords === this.keywords ? this.layout : undefined;
  }

  /** All cards in the header, in the order of the keyword set. */
  toMap(): Map<string, CardValue> {
    const map = new Map<string, CardValue>();
    this.values.forEach((value, number) => {
      const keyword = this.keywords.names[number];
      if (value !== undefined && keyword !== undefined) map.set(keyword, value);
    });
    return map;
  }

  /** Cards of a map, as far as their keywords are in the set. */
  static from(map: ReadonlyMap<string, CardValue>, keywords: KeywordSet): Cards {
    return new Cards(
      keywords,
      keywords.names.map((name) => map.get(name)),
    );
  }
}

/** Cards that were read, and the index of the END card; −1 when it was not met. */
export interface ParsedCards {
  readonly cards: Cards;
  readonly end: number;
}

/**
 * Reads the wanted cards up to END. Of a repeated keyword the first counts, as in other FITS readers.
 *
 * @param cardCount maximum number of whole cards to examine
 * @param notes receives notes on the cards themselves
 */
export function parseCards(
  header: HeaderBytes,
  cardCount: number,
  wanted: KeywordSet,
  notes: HeaderNote[],
): ParsedCards {
  const { words, bytes } = header;
  const known = wanted.layouts.read(
    words,
    cardCount,
    wanted.remarks,
    (card) => ownValue(bytes, card),
    (card) => parseRemark(imageOf(bytes, card), VALUE_INDICATOR),
  );
  if (known !== null) return { cards: new Cards(wanted, known.values, known.layout), end: known.end };

  const values = wanted.noValues.slice();
  const layout: number[] = [];
  // Whether each wanted card is self-contained.
  let isPlain = true;
  for (let card = 0, word = 0; card < cardCount; card++, word += CARD_WORDS) {
    const found = wanted.find(words[word] as number, words[word + 1] as number);
    layout.push(found === END || found === NOT_WANTED ? ANYTHING : found);
    if (found === NOT_WANTED) continue;
    if (found === END) {
      if (isPlain) wanted.layouts.remember(words, layout, values);
      return { cards: new Cards(wanted, values), end: card };
    }
    const image = imageOf(bytes, card);
    const equals = found === HIERARCH ? image.indexOf('=') : VALUE_INDICATOR;
    const number = found === HIERARCH ? wanted.numberOf(hierarchKeyword(image, equals)) : found;
    isPlain &&= found !== HIERARCH && image.charCodeAt(equals) === EQUALS;
    if (number === undefined || image.charCodeAt(equals) !== EQUALS) continue;

    let value = parseValue(image, equals);
    if (mayGoOn(value)) {
      isPlain = false;
      value = continueString(header, value, card + 1, cardCount);
    }
    const earlier = values[number];
    if (earlier === undefined) {
      values[number] = value;
      const remark = wanted.remarks[number]!;
      if (remark !== NOT_WANTED) values[remark] = parseRemark(image, equals);
      continue;
    }
    isPlain = false;
    if (earlier !== value) notes.push(duplicateCard(itemAt(wanted.names, number), earlier, value));
  }
  return { cards: new Cards(wanted, values), end: NOT_FOUND };
}

/** The value of a self-contained card; `undefined` when it has no `=`, or may continue in the following cards. */
function ownValue(bytes: Buffer, card: number): CardValue | undefined {
  if (bytes[card * CARD_BYTES + VALUE_INDICATOR] !== EQUALS) return undefined;
  const plain = plainValue(bytes, card * CARD_BYTES);
  if (plain !== undefined) return plain;
  const value = parseValue(imageOf(bytes, card), VALUE_INDICATOR);
  return mayGoOn(value) ? undefined : value;
}

/** Whether CONTINUE cards may follow a value (section 4.2.1.2). */
function mayGoOn(value: CardValue): value is string {
  return typeof value === 'string' && value.endsWith('&');
}

/** The keywords of all cards that may have a value. */
export function keywordsIn({ bytes }: HeaderBytes, cardCount: number): KeywordSet {
  const names: string[] = [];
  for (let card = 0; card < cardCount; card++) {
    const image = imageOf(bytes, card);
    const name = image.slice(0, VALUE_INDICATOR).trimEnd().toUpperCase();
    const equals = image.indexOf('=');
    if (name === 'HIERARCH' && equals !== -1) names.push(hierarchKeyword(image, equals));
    else if (equals === VALUE_INDICATOR && !COMMENTARY.has(name)) names.push(name);
  }
  return new KeywordSet(names);
}

/** The index of the next END card, or −1 when there is none before `cardCount`. */
export function findEnd(words: Int32Array, fromCard: number, cardCount: number): number {
  for (let card = fromCard; card < cardCount; card++) if (isCard(words, card, END_WORDS)) return card;
  return NOT_FOUND;
}

/**
 * The index of the first card whose keyword is not printable ASCII, where pixels begin if END is missing; −1 for none.
 */
export function findNonText(words: Int32Array, cardCount: number): number {
  for (let card = 0, word = 0; card < cardCount; card++, word += CARD_WORDS) {
    if (!isPrintable(words[word] as number) || !isPrintable(words[word + 1] as number)) return card;
  }
  return NOT_FOUND;
}

/** All four bytes within 0x20…0x7f: no high bit, and one of the next two set. */
function isPrintable(word: number): boolean {
  return (word & 0x80808080) === 0 && ((word | (word << 1)) & 0x40404040) === 0x40404040;
}

function isCard(words: Int32Array, card: number, keyword: readonly [number, number]): boolean {
  return spells(words[card * CARD_WORDS] as number, words[card * CARD_WORDS + 1] as number, keyword);
}

function imageOf(bytes: Buffer, card: number): string {
  return bytes.toString('latin1', card * CARD_BYTES, (card + 1) * CARD_BYTES);
}

function hierarchKeyword(image: string, equals: number): string {
  return normalKeyword(image.slice(VALUE_INDICATOR, equals));
}

/** Appends the CONTINUE cards that follow a string ending in `&` (section 4.2.1.2); without one the `&` is literal. */
function continueString({ bytes, words }: HeaderBytes, beginning: string, fromCard: number, cardCount: number): string {
  const pieces = [];
  let last = beginning;
  for (let card = fromCard; card < cardCount && last.endsWith('&'); card++) {
    if (!isCard(words, card, CONTINUE_WORDS)) break;
    const field = imageOf(bytes, card).slice(VALUE_INDICATOR).trimStart();
    if (!field.startsWith("'")) break;
    pieces.push(last.slice(0, -1));
    last = parseString(field, 0);
  }
  return pieces.join('') + last;
}

function duplicateCard(card: string, first: CardValue, second: CardValue): HeaderNote {
  return {
    code: 'duplicate-card',
    card,
    what: `${card} occurs twice with different values, ${show(first)} and ${show(second)}; the first was used`,
    remedy: 'Make the capture program write the keyword once.',
  };
}
