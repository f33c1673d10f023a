import { actualOf } from '../group-names.js';
import { wordList } from '../lexicon/word-list.js';
import { near } from '../seconds-words.js';
import type { Kind, Slot } from './kind.js';
import { withSlots } from './with-slots.js';

/** After how long something was over, as the name of a field: of a star's size it says something else. */
const AFTER = wordList(
  'after nach danach apres despues tras depois apos dopo na po efter etter utan in ran run spent needed used open ' +
    'brauchte benotigt 後 之后 후',
);
/** The name given to a number that is known to be an elapsed duration. */
const TOOK = 'took';

/**
 * The kinds of a log whose records say after how long something was over, in a field such as `after`: it is known by
 * exposures that have their length in it, and then means the same of everything else.
 */
export function withElapsedFields(kinds: readonly Kind[]): readonly Kind[] {
  const paths = new Set(kinds.flatMap((kind) => ofExposures(kind) ?? []));
  return paths.size === 0 ? kinds : kinds.map((kind) => renamed(kind, ({ path }) => path !== null && paths.has(path)));
}

/** The path of such a field if its numbers slightly exceed the lengths that the same records ask for. */
function ofExposures(kind: Kind): string | null {
  if (!kind.slots.some(isAfter)) return null;
  const found = actualOf(renamed(kind, isAfter));
  return found !== null && found.before[0] === TOOK ? found.path : null;
}

function isAfter(slot: Slot): boolean {
  return slot.path !== null && slot.type === 'number' && slot.after === '' && near(slot, AFTER, 1);
}

function renamed(kind: Kind, isSuch: (slot: Slot) => boolean): Kind {
  if (!kind.slots.some(isSuch)) return kind;
  return withSlots(
    kind,
    kind.slots.map((slot) => (isSuch(slot) ? { ...slot, before: [TOOK, ...slot.before] } : slot)),
  );
}
