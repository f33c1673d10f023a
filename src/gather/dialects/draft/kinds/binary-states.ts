import type { Template } from '../template-tree.js';
import type { Token } from '../tokens.js';

/** What a state of two digits, or an edge between them, says in words. */
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

/** Occurrences from which on states are believed, and the share of each of the two. */
const MIN_LINES = 4;
const SHARE = 0.3;
/** Steps from one occurrence to the next at which the state changes. */
const CHANGES = 0.6;

/** The word for a state that is written as a digit, an edge or a truth value; `null` where it is none. */
export function stateWord(text: string): string | null {
  return WORDS.get(text.toLowerCase().replace(/\s|=|→|⇒/g, (mark) => (/[→⇒]/.test(mark) ? '->' : ''))) ?? null;
}

/** Whether values are two states that take turns: a shutter is opened and closed, opened and closed. */
export function takesTurns(values: readonly string[]): boolean {
  const states = values.map(stateWord);
  if (states.length < MIN_LINES || states.includes(null)) return false;
  const on = states.filter((state) => state === 'on').length;
  if (Math.min(on, states.length - on) < SHARE * states.length) return false;
  const changes = states.filter((state, i) => i > 0 && state !== states[i - 1]).length;
  return changes >= CHANGES * (states.length - 1);
}

/** A template and the messages that it stands for, taken apart. */
export interface Sorted<M> {
  readonly template: Template;
  readonly messages: readonly M[];
}

/**
 * Lines that differ by a state in digits, `shutter 1` and `shutter 0`, or `shutter 0->1` and `shutter 1->0`, as the two
 * kinds that they are; as they are where no place of theirs is a state.
 */
export function byState<M>(
  { template, messages }: Sorted<M>,
  tokensOf: (message: M) => readonly Token[],
): readonly Sorted<M>[] {
  const tokens = messages.map(tokensOf);
  const places = [...template.wildcards].flatMap(([i, { values }]) =>
    values.size === 2 && values.has('0') && values.has('1') ? [i] : [],
  );
  const place = places.find((i) => takesTurns(tokens.map((own) => own[i]?.text ?? '')));
  if (place === undefined) return [{ template, messages }];
  return ['0', '1'].flatMap((state) => {
    const own = messages.filter((_, n) => tokens[n]?.[place]?.text === state);
    const [first] = own;
    if (first === undefined) return [];
    const texts = own.map(tokensOf);
    // The other end of an edge goes with it.
    const fixed = places.filter((i) => new Set(texts.map((one) => one[i]?.text)).size === 1);
    return [{ template: withFixed(template, fixed, texts[0] ?? [], own.length), messages: own }];
  });
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
const DIGIT = /(?<![\d.,:-])[01](?![\p{L}\d]|[.,:]\d)/gu;

/** A wording with its states in digits as words. */
export function wordedStates(wording: string): string {
  const edges = wording.replace(EDGE, (edge) => stateWord(edge) ?? edge);
  return edges === wording ? wording.replace(DIGIT, (digit) => stateWord(digit) ?? digit) : edges;
}
