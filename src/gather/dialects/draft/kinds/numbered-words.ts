import type { Token } from '../tokens.js';

/** A capital letter and a number: the number of a job, a cue, a step, or the name of one of few devices. */
const NUMBERED = /(?<![\p{L}\p{N}_.-])(\p{Lu})(\d{1,5})(?![\p{L}\p{N}_.-])/gu;
const WHOLE = /^(\p{Lu})(\d{1,5})$/u;
/** Different numbers of things that are counted, and those that are by one more than the last new one. */
const MIN_NUMBERS = 12;
const BY_ONE = 0.7;

/** The letters that stand in front of numbers which count on and on, `Q17`, `Q18`: no names of devices or filters. */
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

/** Tokens with these letters apart from the numbers behind them. */
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
