/**
 * Which moment of the exposure a date is, by the comment of its card.
 */

/** The part of the exposure that lies before a moment of it: start, middle or end. */
export type Share = 0 | 0.5 | 1;

const START = words(
  'start started starts startzeit begin begins began beginning open opens opened anfang beginn début debut inicio ' +
    'início inizio aanvang commencement początek začátek начало 開始 开始 開始時刻',
);
const MIDDLE = words(
  'middle mid midpoint midexposure midtime mitte milieu mitad meio metà midden środek střed середина',
);
const END = words(
  'end ends ended ending endzeit endezeit close closes closed closing finish finished stop stopped completion ende ' +
    'schluss fin fine fim final einde slut koniec konec конец окончание 終了 结束 結束',
);
const WORD = /\p{L}+/gu;

/** The last comment requested, and its moment: those of a night repeat. */
let lastRead: { readonly remark: string; readonly share: Share } = { remark: '', share: 0 };

/**
 * The moment named by a comment: a program that writes the end where the standard has the start often says so. A
 * comment that names the start and another moment mentions both, and changes nothing.
 */
export function momentOf(remark: string): Share {
  if (remark !== lastRead.remark) lastRead = { remark, share: shareIn(remark) };
  return lastRead.share;
}

function shareIn(remark: string): Share {
  const text = remark.toLowerCase();
  // Nearly all comments end here: to compile the expression for a letter takes a process as long as several headers.
  if (![...MIDDLE, ...END].some((word) => text.includes(word))) return 0;
  const said = new Set(text.match(WORD));
  const says = (list: readonly string[]): boolean => list.some((word) => said.has(word));
  const isEnd = says(END);
  if (says(START)) return 0;
  if (says(MIDDLE)) return isEnd ? 0 : 0.5;
  return isEnd ? 1 : 0;
}

function words(list: string): readonly string[] {
  return list.split(' ');
}
