import { CATALAN } from './catalan.js';
import type { Concept, FurtherWords } from './concepts.js';
import { RUSSIAN, UKRAINIAN } from './cyrillic.js';
import { FINNISH, HUNGARIAN } from './finnish-hungarian.js';
import { GREEK, TURKISH } from './greek-turkish.js';
import { DANISH, SWEDISH } from './nordic.js';
import { CROATIAN, ROMANIAN } from './romanian-croatian.js';

/** The languages with basic vocabulary only, in addition to those covered fully. */
export const FURTHER_LANGUAGES: readonly FurtherWords[] = [
  SWEDISH,
  DANISH,
  FINNISH,
  HUNGARIAN,
  GREEK,
  TURKISH,
  RUSSIAN,
  UKRAINIAN,
  ROMANIAN,
  CROATIAN,
  CATALAN,
];

/** The words of all of them for one concept. */
export function furtherWords(concept: Concept): string {
  return FURTHER_LANGUAGES.map((words) => words[concept]).join(' ');
}
