import { plainWords } from '../lexicon/plain-words.js';
import { wordList } from '../lexicon/word-list.js';
import type { Kind, Slot } from './kind.js';

/** Precedes the time at which something ended. */
export const UNTIL = wordList(
  `till until upto up_to bis jusqu* hasta fino sino tot ate do az_do finished ended med til kuni asti saakka εως μεχρι
   kadar до по pana do_kraja まで 至 直到 直至 到 까지`,
);
/** Between two times, and nothing else, these also lead from one to the other. */
const BETWEEN = wordList('to a al alla alle au aux ao aos and und et e y i en から 부터');
/** Marks that lead from one time to another. */
const MARK = String.raw`(?:[-\u2013\u2014~\u301c\uff5e/]|[-=]+>|\u2192|\.{2,}|\u2026)`;
const LEADS = new RegExp(String.raw`#\s*${MARK}\s*#`, 'u');
const LEADS_ON = new RegExp(String.raw`#\s*${MARK}$`, 'u');
/** Words between the two: `bis`, `Uhr bis`. */
const MOST_WORDS = 2;

/** The end time that lines state directly after their own. */
export function endIn({ slots, wording }: Kind): Slot | undefined {
  const clocks = slots.filter(({ type, path }) => type === 'clock' && path === null);
  const [, second] = clocks;
  if (second === undefined) return undefined;
  return leadsOn(second.before) || (second.before.length === 0 && LEADS.test(wording)) ? second : undefined;
}

/** Whether the text before a trailing stamp ends in a time that leads to it. */
export function endsInTime({ slots, wording }: Kind): boolean {
  const clocks = slots.filter(({ type, path }) => type === 'clock' && path === null);
  if (clocks.length !== 1 || clocks[0] !== slots.at(-1)) return false;
  const behind = wording.slice(wording.lastIndexOf('#') + 1);
  return LEADS_ON.test(wording.trim()) || leadsOn(plainWords(behind).split(' ').filter(Boolean));
}

function leadsOn(words: readonly string[]): boolean {
  return (
    words.length > 0 &&
    words.length <= MOST_WORDS &&
    words.some((word) => UNTIL.test(plainWords(word)) || (words.length === 1 && BETWEEN.test(plainWords(word))))
  );
}

/** The link between a line's own time and the second one: between the two, before this one, or after it. */
const BETWEEN_TWO = /#([^#]{0,12})(?=#)/gu;
const IN_FRONT = /^[^\p{L}#]*(\p{L}+)[^\p{L}#]*#/u;
const BEHIND = /#[^#]{0,12}$/u;

/** The kind without the word that links the two times: `until` may mean a wait. */
export function withoutLead(kind: Kind, end: Slot): Kind {
  const { wording, lead } = kind;
  if (end.path !== null || end.isFront === true) return kind;
  const cut =
    endIn(kind) === end
      ? withoutLink(wording)
      : endsInTime(kind)
        ? wording.replace(BEHIND, '#')
        : wording.replace(IN_FRONT, (whole, word: string) => (UNTIL.test(plainWords(word)) ? '#' : whole));
  return cut === wording ? kind : { ...kind, wording: cut, lead: Math.min(lead, cut.length) };
}

/** A wording without the first text between two values that leads from one to the other. */
function withoutLink(wording: string): string {
  const links = [...wording.matchAll(BETWEEN_TWO)];
  const found = links.find(([, between = '']) => isLink(between)) ?? links[0];
  return found === undefined
    ? wording
    : `${wording.slice(0, found.index)}${wording.slice(found.index + found[0].length)}`;
}

/** Whether a text between two times leads from one to the other. */
export function isLink(between: string): boolean {
  return LEADS.test(`#${between}#`) || leadsOn(plainWords(between).split(' ').filter(Boolean));
}
