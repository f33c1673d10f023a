/**
 * The keywords that a header has, of all that a table accepts: two thirds are other writers' spellings. The frames of a
 * night have the same cards, so that absent ones need to be looked for only once.
 */
import type { Cards } from './cards.js';
import type { Keyword, KeywordTable } from './keywords.js';

/** By the layout of headers. */
const known = new WeakMap<object, KeywordTable>();

/**
 * A table without the keywords that a header does not have; what it says of this header is the same. The same object
 * for headers laid out alike, the table itself for one that is not known to be.
 */
export function presentIn(cards: Cards, table: KeywordTable): KeywordTable {
  const layout = cards.layoutBy(table.wanted);
  if (layout === undefined) return table;
  let present = known.get(layout);
  if (present === undefined) known.set(layout, (present = reduced(cards, table)));
  return present;
}

function reduced(cards: Cards, { accepted, places, wanted, identity }: KeywordTable): KeywordTable {
  const values = cards.valuesBy(wanted);
  const isPresent = ({ number }: Keyword): boolean => values[number] !== undefined;
  const { dates, making, all } = identity;
  return {
    accepted: new Map([...accepted].map(([meaning, keywords]) => [meaning, keywords.filter(isPresent)])),
    places: places.filter((pair) => pair.every(isPresent)),
    wanted,
    identity: { dates: dates.filter(isPresent), making: making.filter(isPresent), all: all.filter(isPresent) },
  };
}
