/** The keys of a table in the order written, with their own type: for unions, schema enums and tests. */
export function keysOf<K extends string>(table: Readonly<Record<K, unknown>>): readonly [K, ...K[]] {
  const [first, ...rest] = Object.keys(table) as K[];
  if (first === undefined) throw new RangeError('a table of the vocabulary holds nothing');
  return [first, ...rest];
}

/** Whether a text is a key of the table: for words from records and logs. */
export function isKeyOf<K extends string>(table: Readonly<Record<K, unknown>>, word: string): word is K {
  return Object.hasOwn(table, word);
}
