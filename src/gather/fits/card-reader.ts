/**
 * Facts from cards by meaning: the first accepted keyword with a usable value wins, and an invalid value is noted and
 * skipped.
 */
import { atKey } from '../../model/collections.js';
import type { CardValue } from './card-values.js';
import type { Cards } from './cards.js';
import { NOT_WANTED } from './keyword-set.js';
import type { Keyword, KeywordTable, Meaning } from './keywords.js';
import { type HeaderNote, show } from './notes.js';
import { byRemark, withUnit } from './units.js';

/** Limits that a number must keep; both ends belong to the range. */
export interface NumberRange {
  readonly from: number;
  readonly to: number;
  /** Zero means 'unknown', as many writers have it. */
  readonly zeroIsUnknown?: boolean;
}

export const ANY_NUMBER: NumberRange = { from: -Number.MAX_VALUE, to: Number.MAX_VALUE };

/** No fact needs longer text; truncation keeps searches in it fast, whatever a CONTINUE chain holds. */
const MAX_TEXT = 256;
const DECIMAL = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eEdD][+-]?\d+)?$/;
const DECIMAL_COMMA = /^[+-]?\d+,\d+$/;

/** Reads one header's cards by meaning. */
export class CardReader {
  /** Keywords of right ascension and declination that belong together, in order of preference. */
  readonly places: KeywordTable['places'];
  private readonly accepted: KeywordTable['accepted'];
  private readonly values: readonly (CardValue | undefined)[];
  private readonly remarks: Int16Array;

  /** @param notes receives notes on unusual values */
  constructor(
    private readonly cards: Cards,
    private readonly table: KeywordTable,
    readonly notes: HeaderNote[],
  ) {
    this.places = table.places;
    this.accepted = table.accepted;
    this.remarks = table.wanted.remarks;
    this.values = cards.valuesBy(table.wanted);
  }

  /** The same cards for another pass without repeated notes. */
  quiet(): CardReader {
    return new CardReader(this.cards, this.table, []);
  }

  /** A card's value; `null` when the card is absent or has none. */
  value(keyword: Keyword): CardValue {
    return this.values[keyword.number] ?? null;
  }

  /** Whether a card exists with a value. */
  has(keyword: Keyword): boolean {
    return saysSomething(this.values[keyword.number]);
  }

  /** The comment of a card, if comments of its keyword are kept. */
  remark(keyword: Keyword): string | undefined {
    const number = this.remarks[keyword.number] ?? NOT_WANTED;
    // Accessing a negative array index is slow.
    const text = number === NOT_WANTED ? undefined : this.values[number];
    return typeof text === 'string' ? text : undefined;
  }

  /** The keywords a meaning may have, in order of preference. */
  keywords(meaning: Meaning): readonly Keyword[] {
    return atKey(this.accepted, meaning);
  }

  /** The name of the first of a meaning's keywords that has a value. */
  firstName(meaning: Meaning): string | undefined {
    return this.keywords(meaning).find((keyword) => this.has(keyword))?.name;
  }

  /** Text without spaces around it; numbers and logicals as they are written. */
  text(meaning: Meaning): string | undefined {
    const keywords = this.keywords(meaning);
    for (let i = 0; i < keywords.length; i++) {
      const value = this.values[keywords[i]!.number];
      if (!saysSomething(value)) continue;
      const text = asText(value);
      if (text !== '') return text;
    }
    return undefined;
  }

  /**
   * A number within a range, of the first of a meaning's keywords that has one; in the meaning's unit, where text or
   * comment names another.
   */
  number(meaning: Meaning, range: NumberRange): number | undefined {
    const keywords = this.keywords(meaning);
    for (let i = 0; i < keywords.length; i++) {
      const number = this.numberOf(keywords[i]!, range, meaning);
      if (number !== undefined) return number;
    }
    return undefined;
  }

  /** A card's number; one that is no number, or beyond the range, is noted and left out. */
  numberOf(keyword: Keyword, range: NumberRange, meaning?: Meaning): number | undefined {
    const value = this.values[keyword.number];
    if (!saysSomething(value)) return undefined;
    const read = this.inUnit(keyword, value, meaning);
    if (read === 0 && range.zeroIsUnknown === true) return undefined;
    if (read !== undefined && read >= range.from && read <= range.to) return read;
    this.notes.push(unusableNumber(keyword.name, value, read, range));
    return undefined;
  }

  private inUnit(keyword: Keyword, value: CardValue, meaning: Meaning | undefined): number | undefined {
    const plain = asNumber(value);
    if (meaning === undefined) return plain;
    if (plain === undefined) return withUnit(asText(value), meaning);
    const remark = this.remark(keyword);
    return remark === undefined ? plain : byRemark(plain, remark, meaning);
  }
}

function saysSomething(value: CardValue | undefined): value is string | number | boolean {
  return value !== undefined && value !== null && value !== '';
}

/** A value as text, without spaces around it and cut when it is very long; empty when there is none. */
export function asText(value: CardValue): string {
  if (typeof value === 'string') return (value.length > MAX_TEXT ? value.slice(0, MAX_TEXT) : value).trim();
  if (typeof value === 'boolean') return value ? 'T' : 'F';
  return value === null ? '' : String(value);
}

/** A value as a number, including one written as text or with a decimal comma; `undefined` if it is not one. */
export function asNumber(value: CardValue): number | undefined {
  if (typeof value === 'number') return value;
  if (typeof value !== 'string') return undefined;
  const text = asText(value);
  if (DECIMAL.test(text)) return Number(text.replace(/d/i, 'e'));
  return DECIMAL_COMMA.test(text) ? Number(text.replace(',', '.')) : undefined;
}

function unusableNumber(card: string, value: CardValue, number: number | undefined, range: NumberRange): HeaderNote {
  if (number === undefined) {
    return {
      code: 'unreadable-number',
      card,
      what: `${card} is ${show(value)}, which is not a number; it was left out`,
      remedy: 'Check what the capture program writes there.',
    };
  }
  const limits = Math.abs(range.to) === Number.MAX_VALUE ? '' : ` (expected ${range.from} to ${range.to})`;
  return {
    code: 'absurd-value',
    card,
    what: `${card} is ${show(value)}, which cannot be${limits}; it was left out`,
    remedy: 'Check what the capture program writes there.',
  };
}
