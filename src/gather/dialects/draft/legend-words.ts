/** Entries set apart by strokes, their marks one word or two: `points = wheel turns / points lie = filter is there`. */
const STROKES = /\s\/\s/;
const MARK = String.raw`\p{L}[^\s=,;]{0,13}(?: [^\s=,;]{1,13})?`;
const ENTRY = new RegExp(String.raw`^(${MARK}(?:, ${MARK})?)\s+=\s+(\p{L}[^=]*)$`, 'u');
/** Codes, one or two together, set two blanks apart from what they mean: `WH  wheel turns, WH K  filter is there`. */
const CODE = String.raw`[\p{Lu}\d][\p{Lu}\d+*<>=!?.-]{0,5}`;
const CODES = new RegExp(String.raw`^(${CODE})(?: (\/ )?(${CODE}))?\s{2,}(\p{L}.*)$`, 'u');
const NEXT_CODE = new RegExp(String.raw`\s{3,}|, (?=${CODE}(?: (?:\/ )?${CODE})?\s{2})`, 'u');
/** A code that the log makes use of, and what stands behind it up to the next, or to a gap: `EX+ begins  EX- ends`. */
const USED_CODE = /^(?=.*\p{Lu})[\p{Lu}\d][\p{Lu}\d+*<>=!?.:-]{1,4}$/u;
const MEANT = /^\p{L}[^()]*?(?=\s{2}|\s?[;,(]|$)/u;
const MIN_USED = 5;
/** A short code alone on its line, in letters of any case: `a1  waits for the guiding to calm down`. */
const SHORT = /^([\p{L}\d]{1,3})\s{2,}(\p{L}[^:]*)/u;
const MIN_SHORT = 5;
/** What stands before a head's words: marks of comments, bullets. */
export const COMMENT = /^\s*(?:[;#%*•]+|\/\/|--+)\s*/u;
/** What stands in front of the first of them: `Messages: ab = …`. */
const INTRODUCED = /^\p{L}+: (?=.*=)/u;
/** A short form stands among the first so many pieces of a message. */
export const HEAD_PIECES = 3;
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
  const lines = head.map((line) => line.replace(COMMENT, '').trim());
  const alone = lines.flatMap((line) => (line.split(NEXT_CODE).length === 1 ? codeIn(line) : []));
  const used = new Set(wordings.flatMap((wording) => beginnings(wording)));
  const phrases = new Map([
    ...usedCodes(lines, used),
    ...shortCodes(head),
    ...(alone.length >= MIN_ENTRIES ? alone : []),
    ...lines.flatMap((line) => [...entriesIn(line), ...codesIn(line)]),
  ]);
  const inUse = [...phrases.keys()].filter((phrase) => used.has(phrase)).length;
  return phrases.size >= MIN_ENTRIES && inUse >= IN_USE * phrases.size ? phrases : new Map();
}

/** The short codes that a head explains one a line, and what it says of each; those of other heads are few. */
export function shortCodes(head: readonly string[]): ReadonlyMap<string, string> {
  const found = head.flatMap((line): Entry[] => {
    const [, code = '', meaning = ''] = SHORT.exec(line.replace(COMMENT, '').trim()) ?? [];
    return code === '' ? [] : [[code, meaning.trim()]];
  });
  return new Map(found.length >= MIN_SHORT ? found : []);
}

/** The codes of the log's messages that lines of its head explain, any number of them a line. */
function usedCodes(lines: readonly string[], used: ReadonlySet<string>): readonly Entry[] {
  const found = lines.flatMap((line): Entry[] => {
    const codes = [...line.matchAll(/\S+/g)].filter(([word]) => USED_CODE.test(word) && used.has(word));
    if (codes[0]?.index !== 0) return [];
    return codes.flatMap(([code], i): Entry[] => {
      const from = (codes[i]?.index ?? 0) + code.length;
      const [meaning = ''] = MEANT.exec(line.slice(from, codes[i + 1]?.index).trim()) ?? [];
      return meaning === '' ? [] : [[code, meaning.trim()]];
    });
  });
  // Codes without a sign may leave it to another word, or a mark beside them, what becomes of the thing.
  const signed = found.filter(([code]) => /[^\p{L}\d]$/u.test(code)).length;
  return found.length >= MIN_USED && signed >= found.length / 2 ? found : [];
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
    return marks.length === 1 ? marks.map((mark) => [mark, right]) : eachOf(marks, right);
  });
  return entries.every((own) => own.length > 0) ? entries.flat() : [];
}

function codesIn(text: string): readonly Entry[] {
  const parts = text.split(NEXT_CODE);
  if (parts.length < 2) return [];
  const entries = parts.map(codeIn);
  return entries.every((own) => own.length > 0) ? entries.flat() : [];
}

function codeIn(part: string): Entry[] {
  const [, one = '', stroke, other, meaning = ''] = CODES.exec(part) ?? [];
  if (one === '') return [];
  if (other === undefined) return [[one, meaning]];
  const isTwo = stroke !== undefined || (one.slice(0, -1) === other.slice(0, -1) && one.length > 1);
  return isTwo ? eachOf([one, other], meaning) : [[`${one} ${other}`, meaning]];
}

/** `calm on, calm off = settling begins, is over`: what the first begins with is about the others, too. */
function eachOf(marks: readonly string[], meaning: string): Entry[] {
  const meanings = meaning.split(/, | \/ /);
  const [first = ''] = meaning.split(' ');
  if (meanings.length !== marks.length) return marks.map((mark) => [mark, meaning]);
  return marks.map((mark, i) => [mark, i === 0 ? (meanings[0] ?? '') : `${first} ${meanings[i] ?? ''}`]);
}
