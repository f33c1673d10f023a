/** Entries set apart by strokes, their marks one word or two: `points = wheel turns / points lie = filter is there`. */
const STROKES = /\s\/\s/;
const MARK = String.raw`\p{L}[^\s=,;]{0,13}(?: [^\s=,;]{1,13})?`;
const ENTRY = new RegExp(String.raw`^(${MARK}(?:, ${MARK})?)\s+=\s+(\p{L}[^=]*)$`, 'u');
/** What stands in front of the first of them: `Messages: ab = …`. */
const INTRODUCED = /^\p{L}+: (?=.*=)/u;
/** Fewer are no legend; so many of them stand in the log below it. */
const MIN_ENTRIES = 3;
const IN_USE = 0.5;

/**
 * What the head of a log says that the words mean with which its messages begin, in a trade's own language: entries
 * with an equals sign, set apart by strokes. Empty where the messages hardly begin so.
 *
 * @param wordings what the log's lines say, a name in front of it or none
 */
export function phrasesIn(head: readonly string[], wordings: readonly string[]): ReadonlyMap<string, string> {
  const phrases = new Map(head.flatMap((line) => entriesIn(line.trim())));
  const used = new Set(wordings.flatMap((wording) => beginnings(wording)));
  const inUse = [...phrases.keys()].filter((phrase) => used.has(phrase)).length;
  return phrases.size >= MIN_ENTRIES && inUse >= IN_USE * phrases.size ? phrases : new Map();
}

/** What a message says by the phrase with which it begins; `undefined` where it begins with none. */
export function meaningOf(wording: string, phrases: ReadonlyMap<string, string>): string | undefined {
  if (phrases.size === 0) return undefined;
  return beginnings(wording)
    .map((phrase) => phrases.get(phrase))
    .find((meaning) => meaning !== undefined);
}

/** The two words and the one with which a message begins, and those behind the name in front of it. */
function beginnings(wording: string): readonly string[] {
  const [a = '', b = '', c = ''] = wording.split(/\s+/);
  return [`${a} ${b}`, a, `${b} ${c}`, b];
}

type Entry = readonly [mark: string, words: string];

function entriesIn(text: string): readonly Entry[] {
  const parts = text.replace(INTRODUCED, '').split(STROKES);
  if (parts.length < 2) return [];
  const entries = parts.map((part): Entry[] => {
    const [, left = '', right = ''] = ENTRY.exec(part.trim()) ?? [];
    if (left === '') return [];
    const marks = left.split(', ');
    const meanings = right.split(', ');
    if (marks.length === 1 || meanings.length !== marks.length) return marks.map((mark) => [mark, right]);
    // `calm on, calm off = settling begins, is over`
    const [first = ''] = right.split(' ');
    return marks.map((mark, i) => [mark, i === 0 ? (meanings[0] ?? '') : `${first} ${meanings[i] ?? ''}`]);
  });
  return entries.every((own) => own.length > 0) ? entries.flat() : [];
}
