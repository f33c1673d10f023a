import { disjoint, sizeOf, union, type CharSet } from './char-set.js';
import { emit, emitUnless } from './emit.js';
import type { Node } from './syntax.js';

/** Maximum number of characters of bounded items, and of paths through the bounded choices. */
const MAX_WIDTH = 400;
const MAX_WAYS = 64;

/** A pattern that the native engine may search for, and the condition on the text. */
export interface NativePattern {
  /** Source for `RegExp` with the flag `u`. */
  readonly source: string;
  /** Literals whose occurrence counts in the text, multiplied, must not exceed 64. */
  readonly guards: readonly string[];
}

/**
 * The pattern for the native engine, or `null` unless it is proven that the native engine searches a text in time
 * linear in its length.
 *
 * The native engine backtracks. Three conditions keep that harmless:
 *
 * 1. *Repeats are closed.* Only single characters repeat without bound, and the characters they repeat are disjoint
 *   from those that can come next. The next character then decides, and every way back fails at once. (This is
 *   one-unambiguity: Brüggemann-Klein and Wood, One-Unambiguous Regular Languages, Information and Computation 142,
 *   1998.) The one exception is an open repeat, such as `.*`, that stands outside every choice and is followed by a
 *   literal: it can stop in no more places than the literal occurs in the text. The literal becomes a guard.
 * 2. *Choices are few.* Branches and bounded repeats that the next character does not decide are multiplied; 64 paths
 *   are allowed in all. With the guards satisfied, one attempt at one start costs no more than a constant times the
 *   text it covers.
 * 3. *Attempts do not pile up.* Either the pattern is anchored to the start of the text; or it begins with m ≥ 1 single
 *   characters such that every unbounded repeat is disjoint from at least one of them, so that a repeat's run holds
 *   fewer than m starts, and with k repeats and F characters in the bounded items no position is run over by more than
 *   k(m − 1) + F + 1 attempts; or it begins with a literal, which becomes a guard; or with a repeat that every other
 *   one without bound is disjoint from, and each of its runs is tried from its beginning alone: a match that begins
 *   within the run can begin there as well, and so the leftmost does. A closed repeat that ends the pattern counts for
 *   nothing here: once reached, the search has succeeded.
 */
export function nativePattern(pattern: Node): NativePattern | null {
  const items = flatten(pattern);
  const guards: string[] = [];
  let after: Ahead = { chars: [], open: true };
  let count = 1;
  for (let i = items.length - 1; i >= 0; i--) {
    const item = items[i];
    if (item === undefined) continue;
    if (isUnbounded(item) && !isClosed(item, after)) {
      const guard = literalAt(items, i + 1);
      if (guard === '' || !isSingle(item.node)) return null;
      guards.push(guard);
    } else {
      count *= ways(item, after);
    }
    after = first(item, after);
  }
  if (count > MAX_WAYS || width(pattern) > MAX_WIDTH) return null;
  if (items[0]?.kind === 'start' || attemptsStayApart(items)) return { source: emit(pattern), guards };
  const run = leadingRun(items);
  if (run !== null) return { source: `${emitUnless(run)}${emit(pattern)}`, guards };
  const lead = literalAt(items, 0);
  return lead === '' ? null : { source: emit(pattern), guards: [...guards, lead] };
}

/** What may come next: the possible characters, and whether the pattern may end here. */
interface Ahead {
  readonly chars: CharSet;
  readonly open: boolean;
}

/** What can come first in the node when `after` follows it. */
function first(node: Node, after: Ahead): Ahead {
  switch (node.kind) {
    case 'set':
      return { chars: node.set, open: false };
    // At the end of the text no character follows, so nothing can be confused with it.
    case 'end':
      return { chars: [], open: false };
    case 'start':
    case 'word-edge':
    case 'no-word-edge':
      return after;
    case 'group':
      return first(node.node, after);
    case 'repeat': {
      const inner = first(node.node, after);
      return node.min > 0 ? inner : either(inner, after);
    }
    case 'choice':
      return node.nodes.map((branch) => first(branch, after)).reduce(either);
    case 'sequence':
      return node.nodes.reduceRight((ahead: Ahead, part) => first(part, ahead), after);
  }
}

function either(a: Ahead, b: Ahead): Ahead {
  return { chars: union(a.chars, b.chars), open: a.open || b.open };
}

/**
 * Number of paths through the node that the next character does not decide; infinite if an unbounded repeat is open.
 */
function ways(node: Node, after: Ahead): number {
  switch (node.kind) {
    case 'set':
    case 'start':
    case 'end':
    case 'word-edge':
    case 'no-word-edge':
      return 1;
    case 'group':
      return ways(node.node, after);
    case 'repeat': {
      if (node.max === Infinity) return isClosed(node, after) ? 1 : Infinity;
      if (isSingle(node.node)) return node.min === node.max || isClosed(node, after) ? 1 : node.max - node.min + 1;
      if (node.max > 1 || isNullable(node.node)) return Infinity;
      return ways(node.node, after) + (node.min === 1 || isClosed(node, after) ? 0 : 1);
    }
    case 'choice': {
      const heads = node.nodes.map((branch) => first(branch, after).chars);
      const apart = heads.every((head, i) => heads.every((other, j) => i >= j || disjoint(head, other)));
      const each = node.nodes.map((branch) => ways(branch, after));
      return apart ? Math.max(...each) : each.reduce((sum, count) => sum + count, 0);
    }
    case 'sequence': {
      let ahead = after;
      let count = 1;
      for (const part of [...node.nodes].reverse()) {
        count *= ways(part, ahead);
        ahead = first(part, ahead);
      }
      return count;
    }
  }
}

type Repeat = Extract<Node, { kind: 'repeat' }>;

/** Whether the next character distinguishes another iteration of the repeat from what follows it. */
function isClosed(node: Repeat, after: Ahead): boolean {
  const turn = first(node.node, { chars: [], open: false }).chars;
  return (node.max <= 1 || isSingle(node.node)) && !isNullable(node.node) && disjoint(turn, after.chars);
}

/** The literal spelled by the items from index `from` on. */
function literalAt(items: readonly Node[], from: number): string {
  let text = '';
  for (const item of items.slice(from)) {
    if (item.kind !== 'set' || sizeOf(item.set) !== 1) break;
    text += String.fromCodePoint(item.set[0] ?? 0);
  }
  return text;
}

function isSingle(node: Node): boolean {
  return node.kind === 'set' || (node.kind === 'group' && node.name === null && isSingle(node.node));
}

function isNullable(node: Node): boolean {
  switch (node.kind) {
    case 'set':
      return false;
    case 'group':
      return isNullable(node.node);
    case 'repeat':
      return node.min === 0 || isNullable(node.node);
    case 'choice':
      return node.nodes.some(isNullable);
    case 'sequence':
      return node.nodes.every(isNullable);
    default:
      return true;
  }
}

/** The pattern's items in sequence, groups flattened. */
function flatten(node: Node): Node[] {
  if (node.kind === 'group') return flatten(node.node);
  return node.kind === 'sequence' ? node.nodes.flatMap(flatten) : [node];
}

function attemptsStayApart(items: readonly Node[]): boolean {
  const lead: CharSet[] = [];
  for (const item of items) {
    if (item.kind !== 'set') break;
    lead.push(item.set);
  }
  return innerSets(items).every((set) => lead.some((one) => disjoint(one, set)));
}

/** The unbounded repeats, except one that ends the pattern. */
function innerSets(items: readonly Node[]): CharSet[] {
  const last = items.length - 1;
  return items.filter((item, i) => i < last || !isUnbounded(item)).flatMap(unboundedSets);
}

/** The characters of the repeat that begins the pattern, if no other unbounded repeat can match them. */
function leadingRun(items: readonly Node[]): CharSet | null {
  const [lead, ...rest] = items;
  if (lead === undefined || !isUnbounded(lead) || lead.min === 0 || lead.node.kind !== 'set') return null;
  const { set } = lead.node;
  return innerSets(rest).every((inner) => disjoint(set, inner)) ? set : null;
}

function isUnbounded(node: Node): node is Repeat {
  return node.kind === 'repeat' && node.max === Infinity;
}

function unboundedSets(node: Node): CharSet[] {
  switch (node.kind) {
    case 'repeat':
      return node.max === Infinity
        ? flatten(node.node).flatMap((inner) => (inner.kind === 'set' ? [inner.set] : []))
        : unboundedSets(node.node);
    case 'group':
      return unboundedSets(node.node);
    case 'choice':
    case 'sequence':
      return node.nodes.flatMap(unboundedSets);
    default:
      return [];
  }
}

/** Maximum number of characters of the pattern's bounded items, an unbounded repeat counting as one. */
function width(node: Node): number {
  switch (node.kind) {
    case 'set':
      return 1;
    case 'group':
      return width(node.node);
    case 'repeat':
      return width(node.node) * (node.max === Infinity ? Math.max(1, node.min) : node.max);
    case 'choice':
      return Math.max(...node.nodes.map(width));
    case 'sequence':
      return node.nodes.reduce((sum, part) => sum + width(part), 0);
    default:
      return 0;
  }
}
