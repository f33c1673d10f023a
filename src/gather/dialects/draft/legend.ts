import { countOf, increment } from '../../../model/index.js';
import { listedForms } from './legend-lists.js';
import { COMMENT, HEAD_PIECES, meaningOf, phrasesIn } from './legend-words.js';
import { isTelling, namesSubject, saysMotion } from './lexicon/said.js';

/** A mark and its meaning, separated by a blank: `+ up`, `> go`, `? = may I`. */
const SPACED = /(?<=^|[\s,;])([^\p{L}\p{N}\s,;"'()])\s?[=:]?\s(\p{L}[\p{L} ']*?)(?=\s+[^\p{L}\p{N}\s]|\s{2}|[,;]|$)/gu;
/** A mark attached to its word: `◇開始 ◆終了(所要秒) ×失敗`. */
const GLUED =
  /(?<=^|[\s,;:、，；])([^\p{L}\p{N}\s,;"'()（）<>=._-])(\p{L}[\p{L}'’_-]*(?:[(（][^()（）]{1,20}[)）])?)(?=[\s,;、，；.]|$)/gu;
/** An abbreviation and its word: `露=露光`, `EX: exposure`, `b=begin`. */
const EQUATED =
  /(?<=^|[\s,;、，；(（])([\p{L}\p{N}]{1,4}|[^\p{L}\p{N}\s,;"'()（）])\s?[=:＝：→]\s?(\p{L}[^=＝:：→,;、，；]*?)(?=\s+(?:[\p{L}\p{N}]{1,4}|[^\p{L}\p{N}\s])\s?[=:＝：→]|[,;、，；)）]|$)/gu;
/** Abbreviations in capitals, each followed by its word: `XP expose SV saved LS star lost`. */
const PAIRED =
  /(?<=^|[\s,;:#])(\p{Lu}[\p{Lu}\p{N}]{0,3})\s+(\p{Ll}[\p{Ll}'’-]*(?: \p{Ll}[\p{Ll}'’-]*)?)(?=\s+\p{Lu}[\p{Lu}\p{N}]{0,3}(?:\s|$)|\s*[,;.]|\s*$)/gu;
/** Marks of several signs with their words, widely separated: `x>  opens   x<  closes`. */
const WIDE = /(?<=^|\s{3})([^\s"'()]{1,3})\s+(\p{L}\S*(?: \S+)*)(?=\s{3}|$)/gu;
/** A mark of several signs, at least one of which is neither letter nor digit. */
const OF_SIGNS = /^(?=.*[^\p{L}\p{N}])\S{2,3}$/u;
/** Fewer entries on a line are not a legend. */
const MIN_ENTRIES = 3;
/** A sentence may contain a capital letter or two as well. */
const MIN_PAIRED = 5;

/** One entry of a line, or several with a shared meaning: `ex< = exposure begins`, `up / dn = dome`. */
const STATED = /^(\S{1,12}(?:\s?\/\s?[^\s/]{1,12})*)\s+=\s+(\p{L}[^=]*)$/u;
const BETWEEN = /\s+\/\s+/;
/** Fraction of the abbreviations at the head that must occur in the log below. */
const IN_USE = 0.5;
/** A prefix of more kinds of line than this is a source. */
const MANY = 4;

/** The meanings of marks and abbreviations according to the log's head: its own dictionary. */
export interface Legend {
  readonly words: ReadonlyMap<string, string>;
  /** The abbreviations that prefix everything that happens to the thing they stand for: they are sources. */
  readonly sources: ReadonlySet<string>;
  /** The meanings of messages' first words. */
  readonly phrases: ReadonlyMap<string, string>;
}

/**
 * Reads the legend in the header lines of a log.
 *
 * @param head lines without a stamp
 * @param wordings the log's messages
 * @param timed those with a time, without the lines of the legend itself
 */
export function legendOf(
  head: readonly string[],
  wordings: readonly string[] = [],
  timed: readonly string[] = wordings,
): Legend {
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
  return { words: legend, sources, phrases: phrasesIn(head, timed) };
}

/** `M = mount/guider`, `who=heron|wren`: an abbreviation with alternatives does not name a line's subject. */
function isEither(words: string): boolean {
  if (/\p{L}\s?\|\s?\p{L}/u.test(words)) return true;
  const [, one = '', other = ''] = /(\p{L}+)\/(\p{L}+)/u.exec(words) ?? [];
  return isTelling(one) && isTelling(other);
}

type Entry = readonly [mark: string, words: string];

/** The lines in which every part, separated by `=`, explains an abbreviation that the log uses. */
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

/** `go< / go> = guiding starts / ends`: each has its meaning, whose beginning may be omitted. */
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
 * A wording with the legend's meanings of its marks and abbreviations.
 *
 * @returns also how much of its front names the source; 0 if the legend does not say
 */
export function withLegend(
  wording: string,
  { words, sources, phrases }: Legend,
): { readonly wording: string; readonly lead: number } {
  const meaning = meaningOf(wording, phrases);
  const [head = ''] = wording.split(/\s/);
  const who = sources.has(head) ? words.get(head) : undefined;
  if (who === undefined)
    return {
      wording: meaning === undefined ? expanded(wording, words) : meant(meaning, named(wording, words)),
      lead: 0,
    };
  // Replaced by the name: lines about two sources differ in one word only.
  const source = `${who} `;
  const rest = wording.slice(head.length).trim();
  const said = meaning === undefined ? expanded(rest, words) : meant(meaning, rest);
  return { wording: `${source}${said}`, lead: source.length };
}

/** A message in which an abbreviation at the front stands for a name, with this name. */
function named(wording: string, words: Legend['words']): string {
  const [first = ''] = wording.split(/\s/);
  const name = words.get(first);
  return name === undefined || !/^\p{L}[\p{L}\d-]*$/u.test(name) || isTelling(name) ? wording : `${name} ${wording}`;
}

/** A message in front of which stands what its code means: if that says all, the rest only gives values or a reason. */
function meant(meaning: string, message: string): string {
  return namesSubject(meaning) && saysMotion(meaning) ? `${meaning} (${message})` : `${meaning} ${message}`;
}

function expanded(wording: string, words: Legend['words']): string {
  if (words.size === 0) return wording;
  const pieces = wording.match(/[\p{L}\p{N}_]+|[^\p{L}\p{N}_\s]/gu) ?? [];
  // An abbreviation is at the beginning; later the same letters may be a word.
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
