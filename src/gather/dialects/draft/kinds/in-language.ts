import type { Language } from '../lexicon/languages.js';
import { languagesOf } from '../lexicon/log-language.js';
import type { Kind, Slot } from './kind.js';

/** Words in front of a number that say in these languages that so much has passed, in others how much is to come. */
const PASSED: ReadonlyMap<string, readonly Language[]> = new Map([
  ['na', ['nl']],
  ['en', ['fr']],
  ['nach', ['de']],
  ['po', ['pl', 'cs']],
]);

/**
 * The kinds without the small words in front of their numbers that say what they say in other languages than the log's:
 * `na 300 s` is how long a Polish shutter is going to be open, and how long ago a Dutch one was.
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
