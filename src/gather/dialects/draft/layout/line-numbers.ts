import { escapeBraces } from '../time/counting.js';
import type { HeadLine } from '../time/base-lines.js';

/** Lines without their line numbers, and what precedes the rest of each, as a time pattern. */
export interface Unnumbered {
  readonly lines: readonly HeadLine[];
  readonly prefix: string;
}

const NUMBER = /^([^\p{L}\d\s]{0,2})(\d{1,9})([\])}>|:]?)\s+/u;
const MIN_LINES = 20;
/** Minimum fraction of lines whose number is the previous one plus one. */
const IN_TURN = 0.97;

/** The lines of a log that numbers them consecutively: such a counter is not a time. */
export function unnumbered(lines: readonly HeadLine[]): Unnumbered | null {
  const found = lines.map(({ text }) => NUMBER.exec(text));
  const first = found.find((one) => one !== null);
  if (first === undefined || first === null || lines.length < MIN_LINES) return null;
  const [, before = '', , behind = ''] = first;
  const inTurn = lines.filter(({ number }, i) => {
    const [own, last] = [found[i], found[i - 1]];
    const step = number - (lines[i - 1]?.number ?? NaN);
    return own?.[1] === before && own[3] === behind && (i === 0 || Number(own[2]) - Number(last?.[2]) === step);
  });
  if (inTurn.length < IN_TURN * lines.length) return null;
  return {
    lines: lines.map((line, i) => ({ ...line, text: line.text.slice(found[i]?.[0].length ?? 0), isCut: true })),
    prefix: `${escapeBraces(before)}{number}${escapeBraces(behind)} `,
  };
}
