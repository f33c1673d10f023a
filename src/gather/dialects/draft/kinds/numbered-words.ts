import { increment } from '../../../../model/index.js';
import type { Token } from '../tokens.js';

/** A capital letter and a number: the number of a job, a cue, a step, or the name of one of few devices. */
const NUMBERED = /(?<![\p{L}\p{N}_.-])(\p{Lu})(\d{1,5})(?![\p{L}\p{N}_.-])/gu;
const WHOLE = /^(\p{Lu})(\d{1,5})$/u;
/** Minimum number of different counted numbers, and fraction that exceed the previous maximum by one. */
const MIN_NUMBERS = 12;
const BY_ONE = 0.7;

/** The letters before steadily increasing numbers, `Q17`, `Q18`: not names of devices or filters. */
export function countedLetters(texts: Iterable<string>): ReadonlySet<string> {
  const seen = new Map<string, { readonly numbers: Set<number>; last: number; byOne: number }>();
  for (const text of texts)
    for (const [, letter = '', digits] of text.matchAll(NUMBERED)) {
      const number = Number(digits);
      const own = seen.get(letter) ?? { numbers: new Set<number>(), last: NaN, byOne: 0 };
      seen.set(letter, own);
      if (own.numbers.has(number)) continue;
      own.numbers.add(number);
      if (number === own.last + 1) own.byOne++;
      own.last = number;
    }
  return new Set(
    [...seen].flatMap(([letter, { numbers, byOne }]) =>
      numbers.size >= MIN_NUMBERS && byOne >= BY_ONE * (numbers.size - 1) ? [letter] : [],
    ),
  );
}

/** Tokens with these letters split from the numbers after them. */
export function apartFrom(tokens: readonly Token[], letters: ReadonlySet<string>): readonly Token[] {
  if (letters.size === 0) return tokens;
  return tokens.flatMap((token): Token[] => {
    const [, letter, digits] = WHOLE.exec(token.text) ?? [];
    return letter === undefined || digits === undefined || !letters.has(letter)
      ? [token]
      : [
          { text: letter, variable: false, gap: token.gap },
          { text: digits, variable: true, gap: '' },
        ];
  });
}

/** A device by its number, at the front of a message: `1号機`, `2号机`. Chinese and Japanese use no space between. */
const DEVICE = /^[^\p{L}\p{N}]{0,2}([1-9][\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}ー]+)(?![\p{L}\p{N}])/u;
/** Minimum fraction of messages that name one; maximum number of different ones, and the minimum fraction of each. */
const NAMED = 0.3;
const MOST_DEVICES = 3;
const OF_EACH = 0.1;

/** A device by a word and its number, at the front of a message: `camera 1`, `Gleis 2:`, `tube #1`. */
const WORD_AND_NUMBER = /^[^\p{L}\p{N}]{0,2}(\p{L}[\p{L}_-]*)[ .#-]{1,2}([1-9])(?![\p{L}\p{N}]|[.,:/]\d)/u;

const WORD_AND_ANY = /^[^\p{L}\p{N}]{0,2}(\p{L}[\p{L}_-]*)[ .#-]{1,3}\d/u;

/** The numbered devices at the beginning of messages: their numbers are names. */
export function numberedDevices(texts: readonly string[]): ReadonlySet<string> {
  return namedIn(
    texts,
    (text) => DEVICE.exec(text)?.[1],
    (device) => device.slice(1),
  );
}

/** The same with a word before the number, separated by a blank. */
export function wordsWithNumbers(texts: readonly string[]): ReadonlySet<string> {
  const deviceIn = (text: string): string | undefined => {
    const [, word, number] = WORD_AND_NUMBER.exec(text) ?? [];
    return word === undefined || number === undefined ? undefined : `${word} ${number}`;
  };
  const wordOf = (device: string): string => device.slice(0, -2);
  const found = namedIn(texts, deviceIn, wordOf);
  if (found.size === 0) return found;
  // A word also followed by other numbers is a count or a measurement: `goal 7`, `goal 12.5`.
  const counted = new Set(
    texts.flatMap((text) => (deviceIn(text) === undefined ? (WORD_AND_ANY.exec(text)?.[1] ?? []) : [])),
  );
  return new Set([...found].filter((device) => found.has(`${wordOf(device)} 1`) && !counted.has(wordOf(device))));
}

function namedIn(
  texts: readonly string[],
  deviceIn: (text: string) => string | undefined,
  wordOf: (device: string) => string,
): ReadonlySet<string> {
  const counts = new Map<string, number>();
  for (const text of texts) {
    const device = deviceIn(text);
    if (device !== undefined) increment(counts, device);
  }
  const words = new Map<string, string[]>();
  for (const device of counts.keys()) words.set(wordOf(device), [...(words.get(wordOf(device)) ?? []), device]);
  return new Set(
    [...words.values()].flatMap((own) => {
      const all = own.reduce((sum, device) => sum + (counts.get(device) ?? 0), 0);
      const isColumn = all >= NAMED * texts.length && own.length >= 2 && own.length <= MOST_DEVICES;
      return isColumn && own.every((device) => (counts.get(device) ?? 0) >= OF_EACH * all) ? own : [];
    }),
  );
}

/** Tokens with the numbers of these devices and the following word joined. */
export function joinedTo(tokens: readonly Token[], devices: ReadonlySet<string>): readonly Token[] {
  if (devices.size === 0) return tokens;
  return tokens.flatMap((token, i): Token[] => {
    const [before, next] = [tokens[i - 1], tokens[i + 1]];
    if (before !== undefined && token.gap === '' && devices.has(`${before.text}${token.text}`)) return [];
    const whole = next?.gap === '' ? `${token.text}${next.text}` : '';
    return devices.has(whole) ? [{ text: whole, variable: false, gap: token.gap }] : [token];
  });
}

/** A device is among the first of these tokens. */
const FRONT = 5;

/** Tokens in which the number after such a device's word is not a value. */
export function withNumbersFixed(tokens: readonly Token[], devices: ReadonlySet<string>): readonly Token[] {
  if (devices.size === 0) return tokens;
  const at = tokens.slice(0, FRONT).findIndex(({ text }, i) => {
    const before = tokens[i - 1]?.text === '#' ? tokens[i - 2] : tokens[i - 1];
    return before !== undefined && devices.has(`${before.text} ${text}`);
  });
  return at < 0 ? tokens : tokens.map((token, i) => (i === at ? { ...token, variable: false } : token));
}
