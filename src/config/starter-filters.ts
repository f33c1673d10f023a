/**
 * The lines of a starter rig file that give one name to the filters of all trains, where their programs spell them
 * with a width: `H alpha 5nm` on one and `Ha` on the other are one line of integration then.
 */
import { filterMeant, filterSpelt, groupBy } from '../model/index.js';
import { scalar } from './starter-scalar.js';

/** @param filters names by train, as headers have them */
export function filterLines(filters: Readonly<Record<string, readonly string[]>>): string[] {
  const meant = Object.values(filters).flatMap((names) => unambiguous(names));
  const aliases = [...groupBy(meant, ({ filter }) => filter)].map(
    ([filter, own]) => `${filter}: [ ${[...new Set(own.map(({ name }) => name))].map(scalar).join(', ')} ]`,
  );
  if (aliases.length === 0) return [];
  return [
    '',
    '# Names that are counted as these filters; without a line each counts as a filter of its own.',
    `filters: { ${aliases.join(', ')} }`,
  ];
}

/** Names of one train that imply a filter without spelling it, if no other name of the train implies it, too. */
function unambiguous(names: readonly string[]): { readonly name: string; readonly filter: string }[] {
  return [...groupBy(names, filterMeant)].flatMap(([filter, [name, ...others]]) =>
    filter === null || name === undefined || others.length > 0 || filterSpelt(name) !== null ? [] : [{ name, filter }],
  );
}
