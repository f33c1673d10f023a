import { MOTIONS, type Motion } from './motions.js';
import { READY_FOR } from './motion-words.js';
import { SUSPENDED } from './parked-words.js';
import { plainWords } from './plain-words.js';
import { wordList, type WordList } from './word-list.js';
import { SUBJECTS } from './subjects.js';

/** Introduces a reason. */
const REASON =
  /^(.*?\p{L}.*?)\s*(?:(?<=\b(?:held|paused|suspended|halted|rests|resting))\sfor\s|(?<=(?<!\p{L})(?:pause|break|pauze|pausa|pauza|przerwa|sosta|paus|rest))\s(?:for|für|fürs|zum|pour|para|per|voor|na|pro|för|til)\s|:\s|\(|（|;\s|\s[-–—]\s|,\s|\s(?:because|due to|on account of|wegen|weil|por|porque|a cause|pour|per(?= (?:il|lo|la|le|l|via|nuv))|causa|vanwege|wegens|z powodu|kvuli|kvůli|motivo|reason|grund|raison|causa|powód|důvod|reden)[:\s]|因|のため)/su;

/** `Still not calm after 60 s, carrying on`: the wait is abandoned. */
export const GIVES_UP = wordList(
  `gebe_auf gibt_auf aufgegeben j_abandonne rinuncio desisto me_rindo geef_op geeft_op rezygnuj* poddaj* vzdav* 諦め 放弃
     anyway regardless give_up giving_up gave_up gives_up carry_on carrying_on carries_on going_on trotzdem mache_weiter
     weiter_geht quand_meme on_continue poursui* comunque lo_stesso si_continua de_todos_modos sigo seguimos mesmo_assim
     assim_mesmo
     toch ga_door gaat_verder mimo_to i_tak presto jedeme_dal pokracuj* それでも 続行 仍继续 照常 继续`,
);
/** `Shift between exposures`: when, not what. */
const BETWEEN =
  /(?<!\p{L})(?:between|zwischen|entre|tra|fra|tussen|miedzy|między|mezi)\s+(?:(?:the|two|den|zwei|las|los|les|le|as|os|dos|deux|duas|due|i|gli|de|dwiema|dvema|dvěma)\s+)?(\p{L}+)/iu;
const SETTLING = SUBJECTS.find(({ id }) => id === 'settling');
const HOLD = SUBJECTS.find(({ id }) => id === 'hold');
const DITHER = SUBJECTS.find(({ id }) => id === 'dither');
const EXPOSURE = SUBJECTS.find(({ id }) => id === 'exposure');

/** A line without `between exposures` or the like. */
export function withoutBetween(wording: string): string {
  return wording.replace(BETWEEN, (whole, noun: string) => {
    const word = plainWords(noun);
    return EXPOSURE?.strong.test(word) === true || EXPOSURE?.weak.test(word) === true ? '' : whole;
  });
}

const ARTICLE = '(?:(?:the|a|dem|der|einem|le|la|les|un|une|il|lo|el|los|o|os|as|de|het)\\s+)?';
/** `Calm after switching on or dithering`: an earlier event, not the subject of the line. */
const AFTER = new RegExp(
  `(?<!\\p{L})(?:after|nach|après|dopo|tras|después de|depois de|após|po)\\s+${ARTICLE}(\\p{L}+)` +
    `(?:\\s+(?:or|and|oder|und|ou|et|o|y|e|of|en|lub|i|nebo|a)\\s+${ARTICLE}(\\p{L}+))?`,
  'iu',
);

/** A line about settling without what preceded it. */
export function withoutAfter(wording: string): string {
  const rest = wording.replace(AFTER, (whole, one: string, other = '') =>
    [one, other].some((word) => DITHER?.strong.test(plainWords(word)) === true) ? ' ' : whole,
  );
  return rest !== wording && SETTLING?.strong.test(plainWords(rest)) === true ? rest : wording;
}

/** `Shift by 3 px, then wait for calm`: introduces what has not happened yet. */
const SEQUEL =
  /^(.*?\p{L}.*?)[,;.]?\s+(?:(?:and|und|et|y|e|en|i|a)\s+)?(?:then|afterwards|danach|anschließend|puis|ensuite|poi|dopo|luego|después|depois|daarna|vervolgens|potem|następnie|potom|poté)\s.*\p{L}/su;
const SEQUEL_IN_SCRIPT = /^(.+?)[、，。；]?(?:その後|それから|次に|然后|然後|接着)/su;

/** A line up to what it announces, if something is named before. */
export function withoutSequel(wording: string): string {
  const [, front] = SEQUEL.exec(wording) ?? SEQUEL_IN_SCRIPT.exec(wording) ?? [];
  if (front === undefined) return wording;
  const words = plainWords(front);
  return SUBJECTS.some(({ id, strong }) => id !== 'noise' && strong.test(words)) ? front : wording;
}

/** `Still, ready for the shift`: the line is about what a train is ready for. */
export function isReadyToDither(words: string): boolean {
  return READY_FOR.test(words) && (DITHER?.strong.test(words) === true || DITHER?.weak.test(words) === true);
}

/** `kuehlung` is `kühlung`, written without umlauts: both are looked up. */
export function withUmlauts(words: string): string {
  const written = words.match(/(?<![a-z])[a-z]*[bcdfghjklmnprstvwxz](?:ae|oe|ue)[a-z]*/g) ?? [];
  if (written.length === 0) return words;
  return `${written.map((word) => word.replace(/([aou])e/g, '$1')).join(' ')} ${words}`;
}

/**
 * A line up to its reason: `guiding off: cloud`, `追尾 休み(ピント合わせ)`; the whole line if the front does not say what
 * happens.
 *
 * @param isNamed whether the device that wrote the line implies the subject
 */
export function withoutReason(wording: string, isNamed = false): string {
  const [, front] = REASON.exec(wording) ?? [];
  if (front === undefined || isReadyToDither(plainWords(wording))) return wording;
  if (SETTLING?.strong.test(plainWords(wording)) === true && GIVES_UP.test(plainWords(wording.slice(front.length))))
    return wording;
  // `On, waiting for it to settle` reports two events.
  if (wording.startsWith(',', front.length) && SETTLING?.strong.test(plainWords(wording.slice(front.length))) === true)
    return wording;
  const words = plainWords(front);
  const moves = (Object.entries(MOTIONS) as [Motion, WordList][]).some(
    ([motion, pattern]) => motion !== 'doing' && motion !== 'danger' && pattern.test(words),
  );
  const named = SUBJECTS.some(({ id, strong }) => id !== 'noise' && id !== 'hold' && strong.test(words));
  // A second statement may follow a comma: `at rest, dither allowed`; weather is a reason.
  const rest = wording.slice(front.length);
  const isReason = isNamed && (!rest.startsWith(',') || HOLD?.strong.test(plainWords(rest)) === true);
  return moves && (named || isReason || SUSPENDED.test(words)) ? front : wording;
}
