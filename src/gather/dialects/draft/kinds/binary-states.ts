import { templateText, type Template } from '../template-tree.js';
import type { Token } from '../tokens.js';
import { isOfMount, MIN_OF_MOUNT } from './turning-field.js';
import { isFilterName } from './values.js';

/** A two-digit state, or an edge between states, in words. */
const WORDS: ReadonlyMap<string, string> = new Map([
  ['0', 'off'],
  ['1', 'on'],
  ['0->1', 'on'],
  ['1->0', 'off'],
  ['0>1', 'on'],
  ['1>0', 'off'],
  ['0-1', 'on'],
  ['1-0', 'off'],
  ['01', 'on'],
  ['10', 'off'],
  ['true', 'on'],
  ['false', 'off'],
]);

/** Minimum number of occurrences of a state, and the minimum fraction of each of the two. */
const MIN_LINES = 4;
const SHARE = 0.3;
/** Fraction of steps between occurrences at which the state changes. */
const CHANGES = 0.6;

/** The word for a state written as a digit, an edge or a boolean; `null` if it is none. */
export function stateWord(text: string): string | null {
  return WORDS.get(text.toLowerCase().replace(/\s|=|→|⇒/g, (mark) => (/[→⇒]/.test(mark) ? '->' : ''))) ?? null;
}

/** Whether values are two alternating states: a shutter is opened and closed, opened and closed. */
export function takesTurns(values: readonly string[]): boolean {
  const states = values.map(stateWord);
  if (states.length < MIN_LINES || states.includes(null)) return false;
  const on = states.filter((state) => state === 'on').length;
  if (Math.min(on, states.length - on) < SHARE * states.length) return false;
  const changes = states.filter((state, i) => i > 0 && state !== states[i - 1]).length;
  return changes >= CHANGES * (states.length - 1);
}

/** A template and its messages, split. */
export interface Sorted<M> {
  readonly template: Template;
  readonly messages: readonly M[];
}

/** Digits that encode states. */
const DIGITS = ['0', '1'] as const;
type Pair = readonly [string, string];

/**
 * Splits lines that differ in a state digit, `shutter 1` and `shutter 0`, or `shutter 0->1` and `shutter 1->0`, or in
 * one of two alternating words, into two kinds; unchanged if no position is a state.
 *
 * @param pairs words that alternate in this log
 */
export function byState<M>(
  { template, messages }: Sorted<M>,
  tokensOf: (message: M) => readonly Token[],
  pairs: readonly Pair[] = [],
): readonly Sorted<M>[] {
  const tokens = messages.map(tokensOf);
  const placesOf = ([one, other]: Pair): number[] =>
    [...template.wildcards].flatMap(([i, { values }]) =>
      values.size === 2 && values.has(one) && values.has(other) ? [i] : [],
    );
  const digits = placesOf(DIGITS);
  const turning = digits.find((i) => takesTurns(tokens.map((own) => own[i]?.text ?? '')));
  const states = turning === undefined ? pairs.find((pair) => placesOf(pair).length > 0) : DIGITS;
  if (states === undefined) return [{ template, messages }];
  const places = turning === undefined ? placesOf(states) : digits;
  const place = turning ?? places[0] ?? 0;
  return states.flatMap((state) => {
    const own = messages.filter((_, n) => tokens[n]?.[place]?.text === state);
    const [first] = own;
    if (first === undefined) return [];
    const texts = own.map(tokensOf);
    // The other end of an edge goes with it.
    const fixed = places.filter((i) => new Set(texts.map((one) => one[i]?.text)).size === 1);
    return [{ template: withFixed(template, fixed, texts[0] ?? [], own.length), messages: own }];
  });
}

const ONE_WORD = /^\p{L}{2,}$/u;
/** Fraction of steps at which two alternating words change. */
const EACH_TIME = 0.9;

/**
 * The pairs of words that alternate in lines about several things that are not cameras: alternating cameras are not
 * states.
 */
export function turningPairs<M>(found: readonly Sorted<M>[], tokensOf: (message: M) => readonly Token[]): Pair[] {
  const counts = new Map<string, { pair: Pair; turning: number }>();
  for (const { template, messages } of found)
    for (const [i, { values }] of template.wildcards) {
      const [one, other] = [...values].sort();
      if (one === undefined || other === undefined || values.size > 2 || messages.length < MIN_LINES) continue;
      if (![one, other].every((word) => ONE_WORD.test(word) && !isFilterName(word))) continue;
      const texts = messages.map((message) => tokensOf(message)[i]?.text);
      const changes = texts.filter((text, nth) => nth > 0 && text !== texts[nth - 1]).length;
      if (changes < EACH_TIME * (texts.length - 1) || !isOfMount(templateText(template))) continue;
      const key = `${one}\0${other}`;
      counts.set(key, { pair: [one, other], turning: (counts.get(key)?.turning ?? 0) + 1 });
    }
  return [...counts.values()].flatMap(({ pair, turning }) => (turning >= MIN_OF_MOUNT ? [pair] : []));
}

function withFixed(template: Template, fixed: readonly number[], texts: readonly Token[], count: number): Template {
  return {
    ...template,
    tokens: template.tokens.map((token, i) => (fixed.includes(i) ? (texts[i]?.text ?? token) : token)),
    wildcards: new Map([...template.wildcards].filter(([i]) => !fixed.includes(i))),
    count,
  };
}

const EDGE = /(?<![\p{L}\d.,:-])([01])\s*(?:->|=>|→|⇒|>)\s*([01])(?![\p{L}\d]|[.,:]\d)/gu;
const DIGIT = /(?<![\d.,:-])(\p{L}*)([01])(?![\p{L}\d]|[.,:]\d)/gu;

/** A wording with its state digits as words. @param codes that end in a digit with another meaning */
export function wordedStates(wording: string, codes: ReadonlySet<string> = new Set()): string {
  const edges = wording.replace(EDGE, (edge) => stateWord(edge) ?? edge);
  if (edges !== wording) return edges;
  return wording.replace(DIGIT, (whole, letters: string, digit: string) =>
    codes.has(whole) ? whole : `${letters}${stateWord(digit) ?? digit}`,
  );
}
