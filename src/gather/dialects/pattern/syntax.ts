import { charSet, complement, MAX_CODE_POINT, rangesOf, single, union, type CharSet } from './char-set.js';

/** The syntax tree of a pattern. */
export type Node =
  | { readonly kind: 'set'; readonly set: CharSet }
  | { readonly kind: 'start' | 'end' | 'word-edge' | 'no-word-edge' }
  | { readonly kind: 'sequence' | 'choice'; readonly nodes: readonly Node[] }
  | { readonly kind: 'group'; readonly node: Node; readonly name: string | null }
  | {
      readonly kind: 'repeat';
      readonly node: Node;
      readonly min: number;
      readonly max: number;
      readonly lazy: boolean;
    };

const DIGIT = charSet([[0x30, 0x39]]);
const WORD = charSet([
  [0x30, 0x39],
  [0x41, 0x5a],
  [0x5f, 0x5f],
  [0x61, 0x7a],
]);
const BLANK = charSet([
  [0x09, 0x0a],
  [0x0c, 0x0d],
  [0x20, 0x20],
]);
const NOT_LF = complement(single(0x0a));
const ANY = charSet([[0, MAX_CODE_POINT]]);

const CLASSES: ReadonlyMap<string, CharSet> = new Map([
  ['d', DIGIT],
  ['w', WORD],
  ['s', BLANK],
]);

const CONTROLS: Readonly<Record<string, number>> = { n: 0x0a, t: 0x09, r: 0x0d, f: 0x0c, v: 0x0b, a: 0x07 };

interface Flags {
  readonly ignoreCase: boolean;
  readonly dotAll: boolean;
}

/** Thrown inside the parser for what it leaves to the engine. */
class Unsupported extends Error {}

/**
 * Reads a pattern in RE2 syntax into a tree, for the literals it requires and for the proof that the native
 * engine may run it. It is no validator: what it does not know gives `null`, and the linear-time engine, which
 * has the last word on the syntax, runs that pattern alone.
 *
 * Left out: Unicode classes, `\Q…\E`, `\C`, octal escapes, POSIX classes, the flags `m` and `U`, and case
 * folding beyond ASCII.
 */
export function parsePattern(source: string, ignoreCase: boolean): Node | null {
  try {
    return new Parser(Array.from(source)).parse({ ignoreCase, dotAll: false });
  } catch (error) {
    if (error instanceof Unsupported) return null;
    throw error;
  }
}

const MAX_DEPTH = 100;

class Parser {
  private at = 0;
  private depth = 0;

  constructor(private readonly chars: readonly string[]) {}

  parse(flags: Flags): Node {
    const node = this.choice(flags);
    if (this.at < this.chars.length) throw new Unsupported();
    return node;
  }

  private choice(outer: Flags): Node {
    if (++this.depth > MAX_DEPTH) throw new Unsupported();
    let flags = outer;
    const branches: Node[] = [];
    let nodes: Node[] = [];
    for (;;) {
      const char = this.chars[this.at];
      if (char === undefined || char === ')') break;
      if (char === '|') {
        this.at++;
        branches.push(sequence(nodes));
        nodes = [];
        continue;
      }
      const inline = this.inlineFlags(flags);
      if (inline !== null) {
        flags = inline;
        continue;
      }
      nodes.push(this.repeated(this.atom(flags)));
    }
    this.depth--;
    branches.push(sequence(nodes));
    const [only] = branches;
    return branches.length === 1 && only !== undefined ? only : { kind: 'choice', nodes: branches };
  }

  /** `(?i)` and the like, which hold to the end of the group around them. */
  private inlineFlags(flags: Flags): Flags | null {
    const match = /^\(\?([a-zA-Z]*)(?:-([a-zA-Z]+))?\)/.exec(this.chars.slice(this.at, this.at + 16).join(''));
    if (match === null) return null;
    this.at += match[0].length;
    return withFlags(flags, match[1] ?? '', match[2] ?? '');
  }

  private repeated(atom: Node): Node {
    let node = atom;
    for (;;) {
      const counts = this.quantifier();
      if (counts === null) return node;
      if (counts.max < counts.min || counts.min > 1000) throw new Unsupported();
      const lazy = this.chars[this.at] === '?';
      if (lazy) this.at++;
      node = { kind: 'repeat', node, ...counts, lazy };
    }
  }

  private quantifier(): { min: number; max: number } | null {
    const char = this.chars[this.at];
    if (char === '*' || char === '+' || char === '?') {
      this.at++;
      return { min: char === '+' ? 1 : 0, max: char === '?' ? 1 : Infinity };
    }
    if (char !== '{') return null;
    const match = /^\{(\d{1,4})(,(\d{0,4}))?\}/.exec(this.chars.slice(this.at, this.at + 12).join(''));
    if (match === null) return null;
    this.at += match[0].length;
    const min = Number(match[1]);
    return { min, max: match[2] === undefined ? min : match[3] === '' ? Infinity : Number(match[3]) };
  }

  private atom(flags: Flags): Node {
    const char = this.next();
    switch (char) {
      case '(':
        return this.group(flags);
      case '[':
        return { kind: 'set', set: this.bracket(flags) };
      case '.':
        return { kind: 'set', set: flags.dotAll ? ANY : NOT_LF };
      case '^':
        return { kind: 'start' };
      case '$':
        return { kind: 'end' };
      case '*':
      case '+':
      case '?':
        throw new Unsupported();
      case '\\':
        return this.escape(flags);
      default:
        return { kind: 'set', set: literal(char, flags) };
    }
  }

  private group(outer: Flags): Node {
    let flags = outer;
    let name: string | null = '';
    if (this.chars[this.at] === '?') {
      const head = this.chars.slice(this.at, this.at + 80).join('');
      const named = /^\?P?<([A-Za-z_]\w*)>/.exec(head);
      const plain = /^\?([a-zA-Z]*)(?:-([a-zA-Z]+))?:/.exec(head);
      const match = named ?? plain;
      if (match === null) throw new Unsupported();
      this.at += match[0].length;
      if (named !== null) name = named[1] ?? '';
      else {
        name = null;
        flags = withFlags(flags, plain?.[1] ?? '', plain?.[2] ?? '');
      }
    }
    const node = this.choice(flags);
    if (this.next() !== ')') throw new Unsupported();
    return { kind: 'group', node, name };
  }

  private escape(flags: Flags): Node {
    const char = this.next();
    switch (char) {
      case 'b':
        return { kind: 'word-edge' };
      case 'B':
        return { kind: 'no-word-edge' };
      case 'A':
        return { kind: 'start' };
      case 'z':
        return { kind: 'end' };
      default:
        return { kind: 'set', set: classOf(char, flags) ?? literal(this.escaped(char), flags) };
    }
  }

  /** The character that an escape other than a class or an anchor stands for. */
  private escaped(char: string): string {
    const control = CONTROLS[char];
    if (control !== undefined) return String.fromCodePoint(control);
    if (char === 'x') {
      const match = /^(?:([0-9A-Fa-f]{2})|\{([0-9A-Fa-f]{1,6})\})/.exec(
        this.chars.slice(this.at, this.at + 8).join(''),
      );
      const codePoint = parseInt(match?.[1] ?? match?.[2] ?? '', 16);
      if (match === null || !(codePoint <= MAX_CODE_POINT)) throw new Unsupported();
      this.at += match[0].length;
      return String.fromCodePoint(codePoint);
    }
    if (/^[A-Za-z0-9]$/.test(char)) throw new Unsupported();
    return char;
  }

  private bracket(flags: Flags): CharSet {
    const negated = this.chars[this.at] === '^';
    if (negated) this.at++;
    const parts: CharSet[] = [];
    for (let first = true; first || this.chars[this.at] !== ']'; first = false) {
      const lo = this.bracketItem(flags);
      if (typeof lo !== 'string') {
        parts.push(lo);
        continue;
      }
      if (this.chars[this.at] === '-' && this.chars[this.at + 1] !== ']' && this.chars[this.at + 1] !== undefined) {
        this.at++;
        const hi = this.bracketItem(flags);
        if (typeof hi !== 'string') throw new Unsupported();
        const [from = 0, to = 0] = [lo.codePointAt(0), hi.codePointAt(0)];
        if (from > to) throw new Unsupported();
        parts.push(foldSet(charSet([[from, to]]), flags));
      } else {
        parts.push(literal(lo, flags));
      }
    }
    this.at++;
    const set = union(...parts);
    return negated ? complement(set) : set;
  }

  private bracketItem(flags: Flags): string | CharSet {
    const char = this.next();
    if (char === '[' && this.chars[this.at] === ':') throw new Unsupported();
    if (char !== '\\') return char;
    const escaped = this.next();
    return classOf(escaped, flags) ?? this.escaped(escaped);
  }

  private next(): string {
    const char = this.chars[this.at++];
    if (char === undefined) throw new Unsupported();
    return char;
  }
}

function sequence(nodes: readonly Node[]): Node {
  const [only] = nodes;
  return nodes.length === 1 && only !== undefined ? only : { kind: 'sequence', nodes };
}

function withFlags(flags: Flags, on: string, off: string): Flags {
  if (/[^is]/.test(on) || /[^is]/.test(off)) throw new Unsupported();
  return {
    ignoreCase: (flags.ignoreCase || on.includes('i')) && !off.includes('i'),
    dotAll: (flags.dotAll || on.includes('s')) && !off.includes('s'),
  };
}

/** The set of a class such as `\\w` or `\\W`, folded before it is negated. */
function classOf(char: string, flags: Flags): CharSet | undefined {
  const set = CLASSES.get(char.toLowerCase());
  if (set === undefined) return undefined;
  const folded = foldSet(set, flags);
  return char === char.toLowerCase() ? folded : complement(folded);
}

function literal(char: string, flags: Flags): CharSet {
  return foldSet(single(char.codePointAt(0) ?? 0), flags);
}

/** ASCII letters in both cases, with the two other characters that fold to `k` and `s` in Unicode: U+212A and U+017F. */
function foldSet(set: CharSet, flags: Flags): CharSet {
  if (!flags.ignoreCase) return set;
  const folded = rangesOf(set).flatMap(([lo, hi]): [number, number][] => {
    if (hi > 0x7f) throw new Unsupported();
    const upper: [number, number] = [Math.max(lo, 0x41), Math.min(hi, 0x5a)];
    const lower: [number, number] = [Math.max(lo, 0x61), Math.min(hi, 0x7a)];
    return [
      [lo, hi],
      [upper[0] + 32, upper[1] + 32],
      [lower[0] - 32, lower[1] - 32],
    ];
  });
  const both = charSet(folded);
  const holds = (codePoint: number): boolean => rangesOf(both).some(([lo, hi]) => codePoint >= lo && codePoint <= hi);
  return union(both, holds(0x6b) ? single(0x212a) : [], holds(0x73) ? single(0x17f) : []);
}
