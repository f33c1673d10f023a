import type { EventName, FieldName } from '../../../model/index.js';
import { focusSizes, isSize, isTemperature, positionAfter, positionBefore } from './focus-sizes.js';
import type { Kind, Slot } from './kinds/kind.js';
import { saysInVain } from './lexicon/said.js';
import { wordList } from './lexicon/word-list.js';
import { near } from './seconds-words.js';

const SIZE = wordList(
  'size hfr hfd fwhm star stars estrella* stern* etoile* stell* estrela* ster sterren gwiazd* hvezd* ' +
    'sternbreite breite tamano grosse taille width w 星 크기',
);
const BEFORE = wordList('before antes vorher avant prima voor przed pred 前');
const AFTER = wordList(
  'after antes_no ahora nachher apres dopo na po now jetzt maintenant ora agora nu teraz nyni 后 後',
);

type Fact = readonly [Slot, FieldName];

/**
 * The focuser's position, the star sizes and the temperature that a line about a refocus states: at its end those it
 * ends with, at its beginning those it starts from.
 *
 * @param measured the slots that hold no durations
 */
export function focusFacts(kind: Kind, event: EventName, measured: readonly Slot[]): readonly Fact[] {
  if (event !== 'focus-begin' && event !== 'focus-end') return [];
  const others = measured.filter((slot) => slot.type === 'number' && !isTemperature(slot));
  const degrees = measured.filter(isTemperature).map((slot): Fact => [slot, 'temperature']);
  if (event === 'focus-begin') {
    const position = positionBefore(others);
    const size = others.find((slot) => isSize(slot) && !isOfOther(slot));
    return [
      ...(position === null ? [] : [[position, 'position'] as const]),
      ...(size === undefined ? [] : [[size, 'sizeBefore'] as const]),
      ...degrees,
    ];
  }
  const sizes = focusSizes(others, saysInVain(kind.wording));
  const position = positionAfter(others);
  return [
    ...(sizes === null ? [] : [[sizes.before, 'sizeBefore'] as const, [sizes.after, 'sizeAfter'] as const]),
    ...(position === null ? [] : [[position, 'position'] as const]),
    ...degrees,
    ...others.flatMap((slot): Fact[] => {
      if (!near(slot, SIZE)) return [];
      return near(slot, BEFORE, 1) ? [[slot, 'sizeBefore']] : near(slot, AFTER, 1) ? [[slot, 'sizeAfter']] : [];
    }),
    ...others.filter((slot) => isSize(slot)).map((slot): Fact => [slot, 'sizeAfter']),
  ];
}

/** Numbers at the beginning of a refocus that are no star sizes: the width of its steps, errors on the sky. */
const OTHER = wordList('step* schritt* paso* pas passo* krok* every alle width backlash error err offset rms');

function isOfOther(slot: Slot): boolean {
  return near(slot, OTHER, 1) || /^(?:mm|µm|um|%|["″'′]|arcsec|V)$/u.test(slot.after);
}
