import { rangesOf, sizeOf, type CharSet } from './char-set.js';
import type { Node } from './syntax.js';

const MAX_EXACT = 16;
const MAX_NEED = 32;
/** Longer texts are not combined. */
const MAX_TEXT = 200;
/** Longer literals are no more selective than these. */
const MAX_LENGTH = 24;
/** A shorter literal is on too many lines to be worth searching for. */
const MIN_BYTES = 2;

interface Facts {
  /** Every text the node can match, if there are few; folded to lower case. */
  readonly exact: readonly string[] | null;
  /** Texts of which every match contains at least one, or `null` when there is no such set. */
  readonly need: readonly string[] | null;
}

/**
 * Literals of which every match of the pattern contains at least one, in lower case (ASCII letters folded), or
 * `null` when the pattern requires none. The search by literals must ignore the case of ASCII letters.
 *
 * The rules are those of the trigram queries of R. Cox, Regular Expression Matching with a Trigram Index (2012),
 * with whole literals in place of trigrams.
 */
export function requiredLiterals(pattern: Node): readonly string[] | null {
  const { exact, need: other } = facts(pattern);
  const need = better(asNeed(exact), other);
  return need === null ? null : withoutCovered(need);
}

function facts(node: Node): Facts {
  switch (node.kind) {
    case 'set': {
      const exact = exactOf(node.set);
      return { exact, need: null };
    }
    case 'start':
    case 'end':
    case 'word-edge':
    case 'no-word-edge':
      return { exact: [''], need: null };
    case 'group':
      return facts(node.node);
    case 'repeat':
      return repeatFacts(node);
    case 'choice':
      return choiceFacts(node.nodes.map(facts));
    case 'sequence':
      return sequenceFacts(node.nodes.map(facts));
  }
}

/** One character, or one ASCII letter in both cases; other sets are not literals. */
function exactOf(set: CharSet): readonly string[] | null {
  const [first] = set;
  // Nearly all are one character.
  if (first !== undefined && set.length === 2 && set[1] === first) return [foldAscii(String.fromCodePoint(first))];
  if (sizeOf(set) > 4) return null;
  const texts = new Set<string>();
  for (const [lo, hi] of rangesOf(set)) {
    for (let codePoint = lo; codePoint <= hi; codePoint++) texts.add(foldAscii(String.fromCodePoint(codePoint)));
  }
  return [...texts];
}

function repeatFacts({ node, min, max }: Extract<Node, { kind: 'repeat' }>): Facts {
  const inner = facts(node);
  if (min === 1 && max === 1) return inner;
  if (min === 0) return { exact: max === 1 && inner.exact !== null ? limited([...inner.exact, '']) : null, need: null };
  return { exact: null, need: better(asNeed(inner.exact), inner.need) };
}

function choiceFacts(branches: readonly Facts[]): Facts {
  const exact = branches.every((branch) => branch.exact !== null)
    ? limited(branches.flatMap((branch) => branch.exact ?? []))
    : null;
  const needs = branches.map((branch) => better(asNeed(branch.exact), branch.need));
  const all = needs.every((need) => need !== null) ? needs.flatMap((need) => need ?? []) : null;
  return { exact, need: all !== null && all.length <= MAX_NEED ? all : null };
}

function sequenceFacts(parts: readonly Facts[]): Facts {
  let need: readonly string[] | null = null;
  let whole = true;
  let run: readonly string[] = [''];
  for (const part of parts) {
    const joined = part.exact === null ? null : product(run, part.exact);
    if (joined !== null) {
      run = joined;
      continue;
    }
    whole = false;
    need = better(better(need, asNeed(run)), part.need);
    run = part.exact ?? [''];
  }
  return { exact: whole ? run : null, need: whole ? null : better(need, asNeed(run)) };
}

function product(heads: readonly string[], tails: readonly string[]): readonly string[] | null {
  const [head, tail] = [heads[0], tails[0]];
  if (heads.length === 1 && tails.length === 1 && head !== undefined && tail !== undefined)
    return head.length + tail.length <= MAX_TEXT ? [head + tail] : null;
  return limited(heads.flatMap((head) => tails.map((tail) => head + tail)));
}

function limited(texts: readonly string[]): readonly string[] | null {
  const distinct = [...new Set(texts)];
  return distinct.length <= MAX_EXACT && distinct.every((text) => text.length <= MAX_TEXT) ? distinct : null;
}

/** The texts as a requirement, cut to a useful length; `null` when one is too short to search for. */
function asNeed(texts: readonly string[] | null): readonly string[] | null {
  if (texts === null || texts.length === 0) return null;
  const cut = texts.map((text) => Array.from(text).slice(0, MAX_LENGTH).join(''));
  return cut.every((text) => Buffer.byteLength(text) >= MIN_BYTES) ? cut : null;
}

/** The requirement that fewer lines meet: the one whose shortest literal is longer, then the one with fewer. */
function better(a: readonly string[] | null, b: readonly string[] | null): readonly string[] | null {
  if (a === null || b === null) return a ?? b;
  const shortest = (need: readonly string[]): number => Math.min(...need.map((text) => Buffer.byteLength(text)));
  const difference = shortest(a) - shortest(b);
  return difference > 0 || (difference === 0 && a.length <= b.length) ? a : b;
}

function withoutCovered(need: readonly string[]): readonly string[] {
  return [...new Set(need)].filter((text, _, all) => !all.some((other) => other !== text && text.includes(other)));
}

/** Lower case for ASCII letters, everything else unchanged. */
export function foldAscii(text: string): string {
  return text.replace(/[A-Z]/g, (letter) => letter.toLowerCase());
}
