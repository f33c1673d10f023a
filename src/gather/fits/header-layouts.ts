/**
 * Headers read before, as patterns for the next: the frames of a night have the same cards in the same order, and most
 * of them to the letter. Only cards that differ from the pattern are parsed.
 */
import { itemAt } from '../../model/collections.js';
import type { CardValue } from './card-values.js';

const CARD_WORDS = 20;
/** Lights, darks, and the two units of a compressed image, in turn. */
const MOST_LAYOUTS = 4;
/** In place of a keyword's number: the card is not wanted, and may have any value. */
export const ANYTHING = -1;

/** Where the comment begins in a card of fixed format, at the soonest: behind a number, and behind a date. */
const BEHIND_NUMBER = 8;
const BEHIND_DATE = 9;

/** Values by keyword number; `undefined` if there is no such card. */
type Values = readonly (CardValue | undefined)[];

/** One header: its words, what each card is, and the values. */
interface Layout {
  readonly words: Int32Array;
  /** Of each card up to END, the wanted keyword's number or `ANYTHING`. */
  readonly numbers: Int16Array;
  values: Values;
}

/** Values that a header has by its likeness to one before, and its number of cards before END. */
export interface LikeBefore {
  readonly values: Values;
  readonly end: number;
  /** The same object for all headers with the same wanted cards in the same places. */
  readonly layout: object;
}

/** The layouts of the headers last read with one set of keywords, the latest first. */
export class HeaderLayouts {
  private readonly layouts: Layout[] = [];
  private differing = new Int16Array(128);

  /**
   * The values of a header that is laid out as one before.
   *
   * @param words the header's cards
   * @param cardCount whole cards in them
   * @param remarks for each keyword the number under which its card's comment is kept, negative if not
   * @param parse the value of a card with the same keyword as in the pattern; `undefined` if the card is not
   * self-contained
   * @param remark the comment of a card
   * @returns `null` when no layout fits, or a card is not self-contained
   */
  read(
    words: Int32Array,
    cardCount: number,
    remarks: Int16Array,
    parse: (card: number) => CardValue | undefined,
    remark: (card: number) => string | undefined,
  ): LikeBefore | null {
    for (let i = 0; i < this.layouts.length; i++) {
      const layout = itemAt(this.layouts, i);
      const count = cardCount < layout.numbers.length ? -1 : this.compare(words, layout);
      if (count === -1) continue;
      if (i > 0) {
        this.layouts.splice(i, 1);
        this.layouts.unshift(layout);
      }
      return this.update(layout, count, words, remarks, parse, remark);
    }
    return null;
  }

  /**
   * Adopts a header as a pattern. Each of its wanted cards must be self-contained: no repeated keyword, no continued
   * value, no HIERARCH keyword.
   *
   * @param numbers of each card up to END, the wanted keyword's number or `ANYTHING`
   */
  remember(words: Int32Array, numbers: readonly number[], values: Values): void {
    this.layouts.length = Math.min(this.layouts.length, MOST_LAYOUTS - 1);
    if (numbers.length > this.differing.length) this.differing = new Int16Array(numbers.length * 2);
    this.layouts.unshift({
      words: words.slice(0, numbers.length * CARD_WORDS),
      numbers: Int16Array.from(numbers),
      values,
    });
  }

  /** Numbers the wanted cards that differ. @returns their count; −1 when a keyword differs */
  private compare(words: Int32Array, { words: before, numbers }: Layout): number {
    const { differing } = this;
    let count = 0;
    for (let card = 0, word = 0; card < numbers.length; card++, word += CARD_WORDS) {
      if (words[word] !== before[word] || words[word + 1] !== before[word + 1]) return -1;
      if (numbers[card] === ANYTHING) continue;
      const beyond = word + CARD_WORDS;
      let at = word + 2;
      while (at < beyond && words[at] === before[at]) at++;
      if (at < beyond) differing[count++] = card;
    }
    return count;
  }

  private update(
    layout: Layout,
    count: number,
    words: Int32Array,
    remarks: Int16Array,
    parse: (card: number) => CardValue | undefined,
    remark: (card: number) => string | undefined,
  ): LikeBefore | null {
    const values = layout.values.slice();
    for (let i = 0; i < count; i++) {
      const card = itemAt(this.differing, i);
      const value = parse(card);
      if (value === undefined) return null;
      const number = itemAt(layout.numbers, card);
      values[number] = value;
      const remarkNumber = remarks[number]!;
      if (remarkNumber < 0) continue;
      const from = typeof value === 'string' ? BEHIND_DATE : BEHIND_NUMBER;
      if (!isSameFrom(words, layout.words, card, from)) values[remarkNumber] = remark(card);
    }
    // Only now, for a pattern is whole or none.
    for (let i = 0; i < count; i++) {
      const word = itemAt(this.differing, i) * CARD_WORDS;
      for (let at = word; at < word + CARD_WORDS; at++) layout.words[at] = words[at]!;
    }
    layout.values = values;
    return { values, end: layout.numbers.length - 1, layout };
  }
}

/** Whether a card is byte-identical from one of its words on. */
function isSameFrom(words: Int32Array, before: Int32Array, card: number, from: number): boolean {
  const beyond = (card + 1) * CARD_WORDS;
  let at = card * CARD_WORDS + from;
  while (at < beyond && words[at] === before[at]) at++;
  return at === beyond;
}
