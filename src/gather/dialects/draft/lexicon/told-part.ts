import { MOTIONS, type Motion } from './motions.js';
import { READY_FOR } from './motion-words.js';
import { plainWords } from './plain-words.js';
import { SUBJECTS } from './subjects.js';

/** What comes after these says why. */
const REASON =
  /^(.*?\p{L}.*?)\s*(?::\s|\(|（|;\s|\s[-–—]\s|,\s|\s(?:because|due to|on account of|wegen|weil|por|porque|a cause|pour|per(?= (?:il|lo|la|le|l|via|nuv))|causa|vanwege|wegens|z powodu|kvuli|kvůli)\s|因|のため)/su;

const HOLD = SUBJECTS.find(({ id }) => id === 'hold');
const DITHER = SUBJECTS.find(({ id }) => id === 'dither');

/** `Still, ready for the shift`: what a train is ready for is what the line tells. */
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
 * A line up to its reason: `guiding off: cloud`, `追尾 休み(ピント合わせ)`; all of it where the front does not say what happens.
 *
 * @param isNamed whether the device that wrote the line says what it is about
 */
export function withoutReason(wording: string, isNamed = false): string {
  const [, front] = REASON.exec(wording) ?? [];
  if (front === undefined || isReadyToDither(plainWords(wording))) return wording;
  const words = plainWords(front);
  const moves = (Object.entries(MOTIONS) as [Motion, RegExp][]).some(
    ([motion, pattern]) => motion !== 'doing' && motion !== 'danger' && pattern.test(words),
  );
  const named = SUBJECTS.some(({ id, strong }) => id !== 'noise' && id !== 'hold' && strong.test(words));
  // Behind a comma another thing may stand: `at rest, dither allowed`; the weather is a reason.
  const rest = wording.slice(front.length);
  const isReason = isNamed && (!rest.startsWith(',') || HOLD?.strong.test(plainWords(rest)) === true);
  return moves && (named || isReason) ? front : wording;
}
