/**
 * Which moment of the exposure a date is, by the comment of its card.
 */

/** The part of the exposure that lies before a moment of it: start, middle or end. */
export type Share = 0 | 0.5 | 1;

const AFTER = '(?![\\p{L}])';
const words = (list: string): RegExp => new RegExp(`(?<![\\p{L}])(?:${list.replaceAll(' ', '|')})${AFTER}`, 'u');

const START = words(
  'start started starts begin begins began beginning open opens opened anfang beginn début debut inicio início ' +
    'inizio start(?:zeit)? aanvang commencement początek začátek начало 開始 开始 開始時刻',
);
const MIDDLE = words(
  'middle mid midpoint mid-?exposure mid-?time mitte milieu mitad meio metà midden środek střed середина',
);
const END = words(
  'end ends ended ending close closes closed closing finish finished stop stopped completion ende ende?zeit schluss ' +
    'fin fine fim final einde slut koniec konec конец окончание 終了 结束 結束',
);

/**
 * The moment that a comment names: a program that writes the end where the standard has the start often says so.
 * A comment that names the start beside another moment speaks of both, and changes nothing.
 */
export function momentOf(remark: string): Share {
  const text = remark.toLowerCase();
  if (START.test(text)) return 0;
  const isEnd = END.test(text);
  if (MIDDLE.test(text)) return isEnd ? 0 : 0.5;
  return isEnd ? 1 : 0;
}
