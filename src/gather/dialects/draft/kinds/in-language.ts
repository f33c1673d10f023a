import type { Language } from '../lexicon/languages.js';
import { languagesOf } from '../lexicon/log-language.js';
import type { Kind, Slot } from './kind.js';

/** Words before a number that mean elapsed time in these languages, and planned time in others. */
const PASSED: ReadonlyMap<string, readonly Language[]> = new Map([
  ['na', ['nl']],
  ['en', ['fr']],
  ['nach', ['de']],
  ['po', ['pl', 'cs']],
]);

/**
 * The kinds without the small words before their numbers that have this meaning in other languages than the log's: `na
 * 300 s` is a planned opening in Polish, and elapsed time in Dutch.
 */
export function inLanguage(kinds: readonly Kind[]): readonly Kind[] {
  const languages = languagesOf(kinds.map(({ wording }) => wording));
  if (languages === null) return kinds;
  const isForeign = (word: string): boolean => PASSED.get(word)?.every((language) => !languages.has(language)) === true;
  return kinds.map((kind) => {
    if (!kind.slots.some(({ before }) => before.some(isForeign))) return kind;
    const originals = new Map(
      kind.slots.map((slot): [Slot, Slot] => [
        { ...slot, before: slot.before.filter((word) => !isForeign(word)) },
        slot,
      ]),
    );
    return {
      ...kind,
      slots: [...originals.keys()],
      when: (groups) => kind.when(new Map([...groups].map(([slot, name]) => [originals.get(slot) ?? slot, name]))),
    };
  });
}
