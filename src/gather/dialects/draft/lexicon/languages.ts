/** The languages of the lexicon. */
export const LANGUAGES = ['en', 'de', 'fr', 'it', 'es', 'pt', 'nl', 'pl', 'cs', 'ja', 'zh', 'ko'] as const;

/** One of them. */
export type Language = (typeof LANGUAGES)[number];

/** The words for one concept in each language, as `wordList` reads them: plain words without accents. */
export type Words = Readonly<Record<Language, string>>;

/** The words of all languages. */
export function allWords(words: Words): string {
  return LANGUAGES.map((language) => words[language]).join(' ');
}
