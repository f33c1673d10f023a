/**
 * One filter under two names: `Ha` on one train and `H alpha 5nm` on the other are two lines of integration, and no
 * goal sees both. Names with a bandwidth are not merged automatically, for a wheel may hold two of a kind.
 */
import { filterMeant, groupBy, listed, type Frame, type Warning } from '../model/index.js';

/** A notice for each filter that trains name differently, with the rig file line that merges the names. */
export function filtersApart(frames: readonly Pick<Frame, 'kind' | 'train' | 'filter'>[]): Warning[] {
  const named = frames.flatMap(({ kind, train, filter: name }) => {
    const filter = kind === 'light' && name !== undefined ? filterMeant(name) : null;
    return filter === null || name === undefined ? [] : [{ train, name, filter }];
  });
  return [...groupBy(named, ({ filter }) => filter)].flatMap(([filter, own]): Warning[] => {
    const byTrain = [...groupBy(own, ({ train }) => train)].map(([train, lights]) => ({
      train,
      names: [...new Set(lights.map(({ name }) => name))],
    }));
    // Two names on one train are two filters in its wheel.
    const single = byTrain.flatMap(({ train, names: [name, ...others] }) =>
      name === undefined || others.length > 0 ? [] : [{ train, name }],
    );
    const spellings = [...groupBy(single, ({ name }) => name)];
    if (spellings.length < 2) return [];
    const whose = spellings.map(([name, trains]) => `“${name}” (${trains.map(({ train }) => train).join(', ')})`);
    const aliases = spellings.flatMap(([name]) => (name === filter ? [] : JSON.stringify(name)));
    return [
      {
        code: 'filters-apart',
        message:
          `${listed(whose)} are counted as ${spellings.length} filters; if they are one, write ` +
          `filters: { ${filter}: [ ${aliases.join(', ')} ] } in the rig file`,
      },
    ];
  });
}
