import { CHATTER_WORDS } from './chatter-words.js';
import { LANGUAGES, type Language, type Words } from './languages.js';
import { MOTION_WORDS } from './motions.js';
import { plainWords } from './plain-words.js';
import { wordList } from './word-list.js';
import { SUBJECT_WORDS } from './subject-words.js';

/** Function words common in every text of a language; those of several languages count for each of them. */
const SMALL: Words = {
  en: 'the is at of for and to with not was are it on by from has been after no',
  de: 'der die das ist und auf mit nicht wird wurde von zu fur im den dem ein eine nach bei',
  fr: 'le la les des du est et en sur pour pas un une au aux dans par de',
  it: 'il lo la di del della per con non e un una in da al sul dopo',
  es: 'el la los las de del por con no en un una se al para es',
  pt: 'o a os as do da no na em com nao um uma para por se',
  nl: 'de het een van op en is niet met voor naar wordt bij na',
  pl: 'na w z do nie sie jest o po i od dla za',
  cs: 'na v z do se je o po a od pro za s k ve',
  ja: '[ぁ-んァ-ヶ]',
  zh: '[一-龥]',
  ko: '[가-힣]',
};
/** Weight of a technical term relative to a function word. */
const OF_TRADE = 2;
/** Minimum evidence for a known language, and the fraction of the likeliest's for a second language of the log. */
const LEAST = 8;
const ANOTHER = 0.4;

const TABLES: readonly Words[] = [
  ...Object.values(SUBJECT_WORDS),
  ...Object.values(MOTION_WORDS),
  ...Object.values(CHATTER_WORDS),
];
const OF_LANGUAGE = new Map(
  LANGUAGES.map((language) => [
    language,
    { small: wordList(SMALL[language]), trade: wordList(TABLES.map((words) => words[language]).join(' ')) },
  ]),
);

/**
 * The languages of a log, inferred from function words and technical terms in its lines; English may occur in any log.
 * `null` without enough evidence.
 */
export function languagesOf(wordings: readonly string[]): ReadonlySet<Language> | null {
  const scores = new Map<Language, number>();
  for (const wording of wordings) {
    for (const word of new Set(plainWords(wording).split(' '))) {
      const own = LANGUAGES.filter((language) => isOf(word, language, 'trade'));
      const small = LANGUAGES.filter((language) => isOf(word, language, 'small'));
      for (const language of own) scores.set(language, (scores.get(language) ?? 0) + OF_TRADE / own.length);
      for (const language of small) scores.set(language, (scores.get(language) ?? 0) + 1 / small.length);
    }
  }
  const most = Math.max(0, ...scores.values());
  if (most < LEAST) return null;
  return new Set([...scores].flatMap(([language, score]) => (score >= ANOTHER * most ? [language] : [])).concat('en'));
}

function isOf(word: string, language: Language, which: 'small' | 'trade'): boolean {
  return OF_LANGUAGE.get(language)?.[which].test(word) === true;
}
