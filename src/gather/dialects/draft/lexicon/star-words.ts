import { SUBJECTS } from './subjects.js';

const GUIDING = SUBJECTS.find(({ id }) => id === 'guiding');
const STAR = SUBJECTS.find(({ id }) => id === 'star');

/** Whether guiding is named in addition to the star: `guide star`, `estrela guia` name only the star. */
export function goesOn(words: string): boolean {
  const all = words.split(' ');
  const isStar = (word: string | undefined): boolean => word !== undefined && STAR?.strong.test(word) === true;
  const isBeside = (i: number): boolean =>
    isStar(all[i]) || (/^(?:de|di|do|da)$/.test(all[i] ?? '') && isStar(all[i - 1]));
  // A word such as `volgster` means the star.
  const others = all.filter((word, i) => !isStar(word) && !isBeside(i - 1) && !isStar(all[i + 1]));
  return GUIDING?.strong.test(others.join(' ')) === true;
}
