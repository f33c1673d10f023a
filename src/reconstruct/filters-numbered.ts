/**
 * Filters that headers name only by their position in the wheel: narrowband and broadband are indistinguishable, no
 * goal counts them, and the same filter on another train is another.
 */
import { groupBy, listed, type Frame, type Warning } from '../model/index.js';

/** A wheel position: `3`, `slot 3`, `Filter 3`, `position_3`, `#3`. */
const PLACE =
  /^(?:(?:slot|pos|position|place|filter|fw|platz|posici[oó]n|posizione|filtre|filtro)[\s_#-]*|#)?\d{1,2}$/iu;

/** A notice for each train whose lights name positions, with the line that gives them names. */
export function filtersNumbered(frames: readonly Pick<Frame, 'kind' | 'train' | 'filter'>[]): Warning[] {
  const lights = frames.filter(({ kind, filter }) => kind === 'light' && filter !== undefined && PLACE.test(filter));
  return [...groupBy(lights, ({ train }) => train)].map(([train, own]): Warning => {
    const places = [...new Set(own.flatMap(({ filter }) => filter ?? []))].sort();
    const [first = ''] = places;
    return {
      code: 'filters-numbered',
      message:
        `The headers of ${train} name its ${places.length === 1 ? 'filter' : 'filters'} ${listed(places)}, which is ` +
        'only a position in the wheel: counted as broadband under these names. Say in the rig file what they ' +
        `are, such as filters: { Ha: [ ${JSON.stringify(first)} ] }`,
    };
  });
}
