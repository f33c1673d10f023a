import { complement, rangesOf, type CharSet } from './char-set.js';
import type { Node } from './syntax.js';

/** A syntax tree as the source of a native `RegExp` with the flag `u`. Only named groups capture. */
export function emit(node: Node): string {
  switch (node.kind) {
    case 'set':
      return emitSet(node.set);
    case 'start':
      return '^';
    case 'end':
      return '$';
    case 'word-edge':
      return '\\b';
    case 'no-word-edge':
      return '\\B';
    case 'group':
      return node.name === null ? `(?:${emit(node.node)})` : `(${emit(node.node)})`;
    case 'sequence':
      return node.nodes.map(emit).join('');
    case 'choice':
      return `(?:${node.nodes.map(emit).join('|')})`;
    case 'repeat': {
      const counts = node.max === Infinity ? `{${node.min},}` : `{${node.min},${node.max}}`;
      const inner = node.node.kind === 'set' || node.node.kind === 'group' ? emit(node.node) : `(?:${emit(node.node)})`;
      return `${inner}${counts}${node.lazy ? '?' : ''}`;
    }
  }
}

/** The source of a negative lookbehind for the set. */
export function emitUnless(before: CharSet): string {
  return `(?<!${emitSet(before)})`;
}

function emitSet(set: CharSet): string {
  const ranges = rangesOf(set);
  const [only] = ranges;
  if (ranges.length === 1 && only !== undefined && only[0] === only[1]) return emitChar(only[0]);
  const inverse = complement(set);
  return inverse.length < set.length
    ? `[^${rangesOf(inverse).map(emitRange).join('')}]`
    : `[${ranges.map(emitRange).join('')}]`;
}

function emitRange([lo, hi]: [number, number]): string {
  return lo === hi ? emitChar(lo) : `${emitChar(lo)}-${emitChar(hi)}`;
}

/** A code point that has no special meaning inside or outside brackets. */
function emitChar(codePoint: number): string {
  const char = String.fromCodePoint(codePoint);
  if (/^[A-Za-z0-9 _]$/.test(char)) return char;
  return `\\u{${codePoint.toString(16)}}`;
}
