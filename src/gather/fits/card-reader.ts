/**
 * Facts from cards by meaning: the first accepted keyword with a usable value counts, and a value that makes
 * no sense is noted and passed over.
 */
import type { CardValue } from './card-values.js';
import { type Cards, show } from './cards.js';
import type { KeywordTable, Meaning } from './keywords.js';
import type { HeaderNote } from './notes.js';

/** Limits that a number must keep; both ends belong to the range. */
export interface NumberRange {
  readonly from: number;
  readonly to: number;
  /** Zero stands for 'not known', as many writers have it. */
  readonly zeroIsUnknown?: boolean;
}

export const ANY_NUMBER: NumberRange = { from: -Number.MAX_VALUE, to: Number.MAX_VALUE };

const DECIMAL = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eEdD][+-]?\d+)?$/;
const DECIMAL_COMMA = /^[+-]?\d+,\d+$/;

/** Reads one header's cards by meaning. */
export class CardReader {
  constructor(
    private readonly cards: Cards,
    private readonly table: KeywordTable,
    /** Receives what is odd about values. */
    readonly notes: HeaderNote[],
  ) {}

  /** Accepted keywords of a meaning, in order of preference. */
  keywords(meaning: Meaning): readonly string[] {
    return this.table.accepted[meaning];
  }

  /** A card's value; `null` when the card is absent or has none. */
  value(keyword: string): CardValue {
    return this.cards.get(keyword) ?? null;
  }

  /** The first of a meaning's keywords that has a value. */
  firstKeyword(meaning: Meaning): string | undefined {
    for (const keyword of this.table.accepted[meaning]) {
      const value = this.cards.get(keyword);
      if (value !== undefined && value !== null && value !== '') return keyword;
    }
    return undefined;
  }

  /** Text without spaces around it; numbers and logicals as they are written. */
  text(meaning: Meaning): string | undefined {
    for (const keyword of this.table.accepted[meaning]) {
      const text = asText(this.value(keyword));
      if (text !== '') return text;
    }
    return undefined;
  }

  /** A number within a range. */
  number(meaning: Meaning, range: NumberRange): number | undefined {
    for (const keyword of this.table.accepted[meaning]) {
      const value = this.value(keyword);
      if (value === null || value === '') continue;
      const number = asNumber(value);
      if (number === 0 && range.zeroIsUnknown === true) continue;
      if (number >= range.from && number <= range.to) return number;
      this.notes.push(unusableNumber(keyword, value, number, range));
    }
    return undefined;
  }
}

/** A value as text, without spaces around it; empty when there is none. */
export function asText(value: CardValue): string {
  if (typeof value === 'string') return value.trim();
  if (typeof value === 'boolean') return value ? 'T' : 'F';
  return value === null ? '' : String(value);
}

/** A value as a number, also where it was written as text or with a decimal comma; NaN when it is none. */
export function asNumber(value: CardValue): number {
  if (typeof value === 'number') return value;
  if (typeof value !== 'string') return Number.NaN;
  const text = value.trim();
  if (DECIMAL.test(text)) return Number(text.replace(/d/i, 'e'));
  return DECIMAL_COMMA.test(text) ? Number(text.replace(',', '.')) : Number.NaN;
}

function unusableNumber(card: string, value: CardValue, number: number, range: NumberRange): HeaderNote {
  if (Number.isNaN(number)) {
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
