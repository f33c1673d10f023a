import { COMMENT } from './legend-words.js';

/** A legend's entry for a code: its meaning, and the cells after that if the legend is a table. */
export interface CodeEntry {
  readonly meaning: string;
  readonly cells: readonly string[];
  /** The line with the entry. */
  readonly line: string;
}

/** Marks between a code and its meaning, and around entries. */
const MARKS = /^[\s=:,;/.)\]>|»→–—-]+|[\s=:,;/|([<«←–—-]+$/gu;
const TABLE = /\t|\s*[|;]\s*|\s{2,}/;
/** An entry starts at the beginning of a line, or after such a mark. */
const BEFORE = String.raw`(?:^|[,;|/·•([{<"'\t:]\s*|\s{2,}|\s(?:and|und|et|y|e|a|i|en)\s)`;
const BEHIND = String.raw`(?=\s*(?:[=:)\].>|→»–—\t,;/]|-(?!\d)|\s|$))`;

/**
 * The meanings of codes in a log's legend: `# 10 = exposure begins`, `exposure begins (10)`, a table with a code at the
 * start of each row, or several entries on a line. The first explanation of a code counts.
 *
 * @param texts unstamped lines
 * @param codes the codes in the log's rows
 */
export function codeEntries(texts: readonly string[], codes: ReadonlySet<string>): ReadonlyMap<string, CodeEntry> {
  const found = new Map<string, CodeEntry>();
  const alternatives = [...codes]
    .sort((a, b) => b.length - a.length)
    .map((code) => code.replace(/[\\^$.*+?()[\]{}|]/g, String.raw`\$&`));
  if (alternatives.length === 0) return found;
  const place = new RegExp(`(?<before>${BEFORE})(?<code>${alternatives.join('|')})${BEHIND}`, 'gu');
  for (const line of texts) {
    const text = line.replace(COMMENT, '').trim();
    for (const [code, entry] of tableRow(text, codes) ?? entriesIn(text, place))
      if (!found.has(code)) found.set(code, { ...entry, line });
  }
  return found;
}

type Found = readonly [code: string, entry: Omit<CodeEntry, 'line'>];

/** A row of a table of codes: `10⇥exposure begins⇥filter⇥seconds`. */
function tableRow(text: string, codes: ReadonlySet<string>): readonly Found[] | null {
  const [code = '', meaning = '', ...cells] = text.split(TABLE).map((cell) => cell.trim());
  if (!codes.has(code) || !isMeaning(meaning) || cells.some((cell) => codes.has(cell) && cell !== '')) return null;
  return [[code, { meaning: withoutNumbers(meaning), cells }]];
}

/** Entries with the code before or after its meaning. */
function entriesIn(text: string, place: RegExp): readonly Found[] {
  const codes = [...text.matchAll(place)].map((match) => {
    const start = match.index + (match.groups?.before?.length ?? 0);
    const code = match.groups?.code ?? '';
    return { code, from: match.index, start, end: start + code.length };
  });
  const forward = codes.flatMap(({ code, end }, i): Found[] => {
    const behind = text.slice(end, codes[i + 1]?.from ?? text.length).replace(MARKS, '');
    const meaning = cutMeaning(/^\d+$/.test(code) ? behind.replace(NEXT_NUMBER, '') : behind);
    return isMeaning(meaning) ? [[code, { meaning: withoutNumbers(meaning), cells: [] }]] : [];
  });
  const backward = codes.flatMap(({ code, start }, i): Found[] => {
    const meaning = text.slice(codes[i - 1]?.end ?? 0, start).replace(MARKS, '');
    return isMeaning(meaning) ? [[code, { meaning: withoutNumbers(meaning), cells: [] }]] : [];
  });
  const isBehind = codes[0] !== undefined && codes[0].from > 0 && /^\P{L}*$/u.test(text.slice(codes.at(-1)?.end));
  return isBehind && backward.length >= forward.length ? backward : forward;
}

const MAX_LENGTH = 90;

/** The next entry of a list, of a code that the rows do not use: `reads out, F = turns`. */
const NEXT_ENTRY = /[,;]\s+\S{1,8}\s?=\s.*$/su;
/** The same of numbers: `paused, 3 star lost`. */
const NEXT_NUMBER = /[,;]\s+\d{1,3}\s+\p{L}.*$/su;
/** A list for another column that follows on the line: `lost     waits: 1 = yes`. */
const NEXT_LIST = /\s{2,}\p{L}[\p{L}\s]*:\s.*$/su;

/** A meaning without what follows it on the line, and without the empty cells at its end. */
function cutMeaning(text: string): string {
  return text
    .replace(NEXT_ENTRY, '')
    .replace(NEXT_LIST, '')
    .replace(/[;\t|]+$/u, '');
}

function isMeaning(text: string): boolean {
  return /\p{L}{2}/u.test(text) && text.length <= MAX_LENGTH;
}

/** Numbers in a meaning would be taken for values of the rows. */
function withoutNumbers(meaning: string): string {
  return meaning
    .replace(/[\s([]*\d+(?:[.,]\d+)?[)\]]*/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
}
