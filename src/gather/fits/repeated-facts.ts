/**
 * Facts that most frames of a night share.
 */
import { atKey } from '../../model/collections.js';
import { CardReader } from './card-reader.js';
import type { CardValue } from './card-values.js';
import type { Cards } from './cards.js';
import type { KeywordTable, Meaning } from './keywords.js';
import type { HeaderNote } from './notes.js';

/** Facts of some meanings: recomputed only if one of their cards differs from the previous frame. */
export class RepeatedFacts<T> {
  private readonly numbers: readonly number[];
  private values: (CardValue | undefined)[] = [];
  private last: { readonly facts: T; readonly notes: readonly HeaderNote[] } | undefined;

  /**
   * @param meanings all that `make` reads
   * @param make the facts of one header; nothing else may go into them
   */
  constructor(
    private readonly table: KeywordTable,
    meanings: readonly Meaning[],
    private readonly make: (reader: CardReader) => T,
  ) {
    this.numbers = meanings.flatMap((meaning) => atKey(table.accepted, meaning).map(({ number }) => number));
  }

  /** A header's facts; they may be the very objects that the header before had. @param notes receives theirs */
  of(cards: Cards, notes: HeaderNote[]): T {
    const values = cards.valuesBy(this.table.wanted);
    if (this.last === undefined || this.differs(values)) {
      const found: HeaderNote[] = [];
      this.last = { facts: this.make(new CardReader(cards, this.table, found)), notes: found };
      this.values = this.numbers.map((number) => values[number]);
    }
    for (const note of this.last.notes) notes.push(note);
    return this.last.facts;
  }

  private differs(values: readonly (CardValue | undefined)[]): boolean {
    const { numbers } = this;
    for (let i = 0; i < numbers.length; i++) if (!Object.is(values[numbers[i]!], this.values[i])) return true;
    return false;
  }
}
