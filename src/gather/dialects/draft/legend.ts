import { countOf, increment } from '../../../model/index.js';
import { listedForms } from './legend-lists.js';
import { COMMENT, HEAD_PIECES, meaningOf, phrasesIn } from './legend-words.js';
import { isTelling } from './lexicon/said.js';

/** A mark and what it stands for, a blank between: `+ up`, `> go`, `? = may I`. */
const SPACED = /(?<=^|[\s,;])([^\p{L}\p{N}\s,;"'()])\s?[=:]?\s(\p{L}[\p{L} ']*?)(?=\s+[^\p{L}\p{N}\s]|\s{2}|[,;]|$)/gu;
/** A mark written to its word: `◇開始 ◆終了(所要秒) ×失敗`. */
const GLUED =
  /(?<=^|[\s,;:、，；])([^\p{L}\p{N}\s,;"'()（）<>=._-])(\p{L}[\p{L}'’_-]*(?:[(（][^()（）]{1,20}[)）])?)(?=[\s,;、，；.]|$)/gu;
/** A short form and its word: `露=露光`, `EX: exposure`, `b=begin`. */
const EQUATED =
  /(?<=^|[\s,;、，；(（])([\p{L}\p{N}]{1,4}|[^\p{L}\p{N}\s,;"'()（）])\s?[=:＝：→]\s?(\p{L}[^=＝:：→,;、，；]*?)(?=\s+(?:[\p{L}\p{N}]{1,4}|[^\p{L}\p{N}\s])\s?[=:＝：→]|[,;、，；)）]|$)/gu;
/** Short forms in capitals, each with its word behind it: `XP expose SV saved LS star lost`. */
const PAIRED =
  /(?<=^|[\s,;:#])(\p{Lu}[\p{Lu}\p{N}]{0,3})\s+(\p{Ll}[\p{Ll}'’-]*(?: \p{Ll}[\p{Ll}'’-]*)?)(?=\s+\p{Lu}[\p{Lu}\p{N}]{0,3}(?:\s|$)|\s*[,;.]|\s*$)/gu;
/** Marks of several signs, each with its words, set wide apart: `x>  opens   x<  closes`. */
const WIDE = /(?<=^|\s{3})([^\s"'()]{1,3})\s+(\p{L}\S*(?: \S+)*)(?=\s{3}|$)/gu;
/** A mark of several signs, one of which is neither letter nor digit. */
const OF_SIGNS = /^(?=.*[^\p{L}\p{N}])\S{2,3}$/u;
/** Fewer entries on a line are no legend. */
const MIN_ENTRIES = 3;
/** In a sentence a capital letter or two may stand, too. */
const MIN_PAIRED = 5;

/** One entry of a line of them, or several that share their meaning: `ex< = exposure begins`, `up / dn = dome`. */
const STATED = /^(\S{1,12}(?:\s?\/\s?[^\s/]{1,12})*)\s+=\s+(\p{L}[^=]*)$/u;
const BETWEEN = /\s+\/\s+/;
/** So many of the short forms that a head states stand in the log below it. */
const IN_USE = 0.5;
/** What stands in front of more kinds of lines than these says who writes. */
const MANY = 4;

/** What the head of a log says its marks and short forms mean: its own dictionary. */
export interface Legend {
  readonly words: ReadonlyMap<string, string>;
  /** The short forms that stand in front of all that happens to what they stand for: they say who writes. */
  readonly sources: ReadonlySet<string>;
  /** What the words mean with which messages begin. */
  readonly phrases: ReadonlyMap<string, string>;
}

/**
 * Reads the legend in the lines of a log's head.
 *
 * @param head lines that hold no stamp
 * @param wordings what the log's lines say
 */
export function legendOf(head: readonly string[], wordings: readonly string[] = []): Legend {
  const used = new Set(wordings.flatMap((wording) => wording.split(/\s+/).slice(0, HEAD_PIECES)));
  const stated = statedIn(head, used);
  const legend = new Map([...stated.values()].flat().filter(([, words]) => !isEither(words)));
  const first = new Map<string, number>();
  for (const wording of wordings) increment(first, wording.split(/\s+/)[0] ?? '');
  const sources = new Set([...legend.keys()].filter((mark) => countOf(first, mark) > MANY));
  for (const line of head.filter((one) => !stated.has(one))) {
    const entries = [WIDE, SPACED, GLUED, EQUATED, PAIRED]
      .map((form) => [...line.trim().matchAll(form)])
      .filter((found, i) =>
        i === 0 ? found.some(([, mark = '']) => OF_SIGNS.test(mark)) : i < 4 || found.length >= MIN_PAIRED,
      )
      .sort((a, b) => b.length - a.length)[0];
    if (entries === undefined || entries.length < MIN_ENTRIES) continue;
    for (const [, mark = '', words = ''] of entries)
      if (!legend.has(mark) && !isEither(words)) legend.set(mark, words.trim());
  }
  for (const [mark, words] of listedForms(head, wordings))
    if (!legend.has(mark) && !isEither(words)) legend.set(mark, words);
  return { words: legend, sources, phrases: phrasesIn(head, wordings) };
}

/** `M = mount/guider`, `who=heron|wren`: what stands for either says of no line what it is about. */
function isEither(words: string): boolean {
  if (/\p{L}\s?\|\s?\p{L}/u.test(words)) return true;
  const [, one = '', other = ''] = /(\p{L}+)\/(\p{L}+)/u.exec(words) ?? [];
  return isTelling(one) && isTelling(other);
}

type Entry = readonly [mark: string, words: string];

/** The lines whose every part states what a short form means, set apart by `=`, where the log makes use of these. */
function statedIn(head: readonly string[], used: ReadonlySet<string>): Map<string, readonly Entry[]> {
  const lines = new Map(
    head.flatMap((line): [string, readonly Entry[]][] => {
      const text = line.replace(COMMENT, '').trim();
      const parts = text.split(text.includes(';') ? /\s*;\s*/ : /\s*,\s*/).filter((part) => part !== '');
      const entries = parts.map(entriesOf);
      return parts.length > 0 && entries.every((own) => own.length > 0) ? [[line, entries.flat()]] : [];
    }),
  );
  const marks = [...lines.values()].flat().map(([mark]) => mark);
  const isUsed = marks.filter((mark) => used.has(mark)).length >= IN_USE * marks.length;
  return isUsed && marks.length >= MIN_ENTRIES ? lines : new Map();
}

/** `go< / go> = guiding starts / ends`: each has its meaning, whose beginning may be left out. */
function entriesOf(part: string): Entry[] {
  const [, left = '', right = ''] = STATED.exec(part) ?? [];
  if (left === '') return [];
  const marks = left.split(/\s?\/\s?/);
  const meanings = right.split(BETWEEN);
  const first = (meanings[0] ?? '').split(/\s+/);
  return marks.map((mark, i): Entry => {
    if (i === 0 || meanings.length !== marks.length)
      return [mark, meanings.length === marks.length ? first.join(' ') : right];
    const own = (meanings[i] ?? '').split(/\s+/);
    return [mark, [...first.slice(0, Math.max(0, first.length - own.length)), ...own].join(' ')];
  });
}

/**
 * A wording with what its log's legend says of the marks and short forms in it.
 *
 * @returns how much of it, from its front, says who writes, as well; 0 where the legend says nothing of that
 */
export function withLegend(
  wording: string,
  { words, sources, phrases }: Legend,
): { readonly wording: string; readonly lead: number } {
  const meaning = meaningOf(wording, phrases);
  const [head = ''] = wording.split(/\s/);
  const who = sources.has(head) ? words.get(head) : undefined;
  if (who === undefined)
    return { wording: meaning === undefined ? expanded(wording, words) : `${meaning} ${wording}`, lead: 0 };
  // The name in its stead: lines about two of them are alike but for one word.
  const source = `${who} `;
  const rest = wording.slice(head.length).trim();
  const said = meaning === undefined ? expanded(rest, words) : `${meaning} ${rest}`;
  return { wording: `${source}${said}`, lead: source.length };
}

function expanded(wording: string, words: Legend['words']): string {
  if (words.size === 0) return wording;
  const pieces = wording.match(/[\p{L}\p{N}_]+|[^\p{L}\p{N}_\s]/gu) ?? [];
  // A short form stands at the head; further on the same letters may be a word.
  const whole = wording
    .split(/\s+/)
    .slice(0, HEAD_PIECES)
    .flatMap((word) => (OF_SIGNS.test(word) || !/^[\p{L}\p{N}_]+$/u.test(word) ? (words.get(word) ?? []) : []));
  const meanings =
    whole.length > 0
      ? whole
      : pieces.slice(0, HEAD_PIECES).flatMap((piece) => words.get(piece) ?? words.get(piece.toLowerCase()) ?? []);
  return meanings.length === 0 ? wording : `${[...new Set(meanings)].join(' ')} ${wording}`;
}
