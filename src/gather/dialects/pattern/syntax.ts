import { charSet, complement, MAX_CODE_POINT, union, type CharSet } from './char-set.js';
import { anyOf, classOf, foldSet, literal, Unsupported, withFlags, type Flags } from './classes.js';

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

const CONTROLS: Readonly<Record<string, number>> = { n: 0x0a, t: 0x09, r: 0x0d, f: 0x0c, v: 0x0b, a: 0x07 };

/**
 * Parses a pattern in RE2 syntax into a tree, for its required literals and for the proof that the native engine may
 * run it. It is not a validator: unsupported constructs give `null`, and the linear-time engine, which decides on
 * validity, runs that pattern alone.
 *
 * Unsupported: Unicode classes, `\Q…\E`, `\C`, octal escapes, POSIX classes, the flags `m` and `U`, and case folding
 * beyond ASCII.
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

  /** `(?i)` and the like, which apply up to the end of the enclosing group. */
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
        return { kind: 'set', set: anyOf(flags) };
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

  /** The character of an escape other than a class or an anchor. */
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
