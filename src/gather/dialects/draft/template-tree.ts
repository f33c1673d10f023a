import { commonestFirst } from './kinds/kind.js';
import { isTelling } from './lexicon/said.js';
import { tokenize, type Gap, type Token } from './tokens.js';

/** A position in a template where lines differ, and its values. */
export interface Wildcard {
  /** A sample of the distinct values, in order of appearance. */
  readonly values: Set<string>;
  /** Every value is a number. */
  numeric: boolean;
  /** Whether values have a sign, and whether any is a typographic minus (U+2212). */
  signed: boolean;
  typeset: boolean;
}

/** The common part of the lines of one kind. */
export interface Template {
  /** Text of each token, `null` where lines differ. */
  readonly tokens: (string | null)[];
  /** Separator before each token; `blanks` where lines differ in their blanks. */
  readonly gaps: Gap[];
  /** By token index, for the tokens that are `null`. */
  readonly wildcards: Map<number, Wildcard>;
  count: number;
  readonly firstLine: number;
  readonly example: string;
}

const MAX_TEMPLATES = 1000;
const MAX_CHILDREN = 100;
const MAX_VALUES = 24;
/** Number of tokens that lead to a group of templates before similarity is computed. */
const DEPTH = 2;
/**
 * Minimum fraction of equal words for two messages to be of one kind; marks, numbers and words that occur in most lines
 * do not count. In short messages every word is significant.
 */
const SIMILARITY = 0.7;
const SHORT = 3;
const ANY = '\0any';

interface Node {
  readonly children: Map<string, Node>;
  readonly templates: Template[];
}

/**
 * Mines the templates of log messages with a parse tree of fixed depth: by number of tokens, then by the first tokens,
 * then by similarity (P. He, J. Zhu, Z. Zheng and M. R. Lyu, Drain: An Online Log Parsing Approach with Fixed Depth
 * Tree, ICWS 2017). One thing is added: domain words are never merged into a placeholder, since `dither done` and
 * `focus done` are short and similar and yet mean different things.
 */
export class TemplateTree {
  /** Messages beyond the limit on templates. */
  dropped = 0;
  private readonly root = newNode();
  private readonly all: Template[] = [];
  private readonly telling = new Map<string, boolean>();

  /**
   * @param common words that occur in most messages and distinguish none
   * @param topics subjects of messages, `hut/left/shutter`: significant tokens although they look like paths
   * @param takenApart the tokens of a message
   */
  constructor(
    private readonly decimalComma: boolean,
    private readonly common: ReadonlySet<string> = new Set(),
    private readonly topics: ReadonlySet<string> = new Set(),
    private readonly takenApart = (text: string): readonly Token[] => tokenize(text, decimalComma),
  ) {}

  /** The templates, most common first. */
  templates(): Template[] {
    return [...this.all].sort(commonestFirst);
  }

  /** Classifies a message. @returns its template, or `null` when it has none */
  add(message: string, line: number): Template | null {
    const tokens = this.tokensOf(message);
    if (tokens.length === 0) return null;
    const leaf = this.leafFor(tokens);
    const template = this.mostSimilar(leaf.templates, tokens);
    if (template !== null) {
      merge(template, tokens);
      return template;
    }
    if (this.all.length >= MAX_TEMPLATES) {
      this.dropped++;
      return null;
    }
    const made = newTemplate(tokens, line, message);
    leaf.templates.push(made);
    this.all.push(made);
    return made;
  }

  /** The template nearest to a text by the words they share; `null` when they share none. */
  nearest(text: string): Template | null {
    const wanted = new Set(wordsOf(tokenize(text, this.decimalComma).map((token) => token.text)));
    let best: Template | null = null;
    let bestScore = 0;
    for (const template of this.all) {
      const words = wordsOf(template.tokens);
      const shared = words.filter((word) => wanted.has(word)).length;
      const score = (2 * shared) / (words.length + wanted.size);
      if (score > bestScore) [best, bestScore] = [template, score];
    }
    return best;
  }

  private tokensOf(message: string): readonly Token[] {
    const tokens = this.takenApart(message);
    if (this.topics.size === 0) return tokens;
    return tokens.map((token) => (this.topics.has(token.text) ? { ...token, variable: false } : token));
  }

  private leafFor(tokens: readonly Token[]): Node {
    let node = childOf(this.root, String(tokens.length));
    for (let i = 0; i < Math.min(DEPTH, tokens.length); i++) {
      const token = tokens[i];
      node = childOf(node, token === undefined || token.variable ? ANY : token.text);
    }
    return node;
  }

  private mostSimilar(templates: readonly Template[], tokens: readonly Token[]): Template | null {
    let best: Template | null = null;
    let bestScore = SIMILARITY;
    for (const template of templates) {
      const score = this.similarity(template, tokens);
      if (score >= bestScore) [best, bestScore] = [template, score];
    }
    return best;
  }

  /** Fraction of equal words, placeholders counting as equal; −1 when the two cannot be one kind. */
  private similarity(template: Template, tokens: readonly Token[]): number {
    let equal = 0;
    let words = 0;
    for (let i = 0; i < tokens.length; i++) {
      const token = tokens[i];
      const own = template.tokens[i];
      if (token === undefined || own === undefined || (token.gap === '') !== (template.gaps[i] === '')) return -1;
      const isWord = !token.variable && !isMark(token.text) && !this.common.has(token.text);
      if (isWord) words++;
      if (own === token.text || (own === null && token.variable)) {
        if (isWord) equal++;
      } else if (
        this.tells(token.text) ||
        (own !== null && this.tells(own)) ||
        isMark(token.text) ||
        (own !== null && isMark(own))
      ) {
        return -1;
      } else if (own === null && isWord) {
        equal++;
      }
    }
    return words === 0 || equal === words ? 1 : words <= SHORT ? -1 : equal / words;
  }

  private tells(word: string): boolean {
    let known = this.telling.get(word);
    if (known === undefined) {
      known = this.topics.has(word) || (isTelling(word) && !/^[\p{Lu}]{1,2}$/u.test(word));
      if (this.telling.size > 20_000) this.telling.clear();
      this.telling.set(word, known);
    }
    return known;
  }
}

/** A template as text, with `…` where lines differ. */
export function templateText(template: Template): string {
  return template.tokens.map((token, i) => `${i > 0 && template.gaps[i] !== '' ? ' ' : ''}${token ?? '…'}`).join('');
}

function newNode(): Node {
  return { children: new Map(), templates: [] };
}

function childOf(node: Node, key: string): Node {
  const known = node.children.get(key);
  if (known !== undefined) return known;
  const reached = node.children.size >= MAX_CHILDREN ? ANY : key;
  const child = node.children.get(reached) ?? newNode();
  node.children.set(reached, child);
  return child;
}

function newTemplate(tokens: readonly Token[], line: number, example: string): Template {
  const template: Template = {
    tokens: tokens.map((token) => (token.variable ? null : token.text)),
    gaps: tokens.map((token) => token.gap),
    wildcards: new Map(),
    count: 0,
    firstLine: line,
    example: example.slice(0, 300),
  };
  merge(template, tokens);
  return template;
}

function merge(template: Template, tokens: readonly Token[]): void {
  template.count++;
  tokens.forEach((token, i) => {
    const own = template.tokens[i];
    if (token.gap !== template.gaps[i])
      template.gaps[i] = token.gap === 'wide' || template.gaps[i] === 'wide' ? 'wide' : 'blanks';
    if (own === token.text) return;
    const wildcard = template.wildcards.get(i) ?? {
      values: new Set(typeof own === 'string' ? [own] : []),
      numeric: typeof own !== 'string',
      signed: false,
      typeset: false,
    };
    template.tokens[i] = null;
    template.wildcards.set(i, wildcard);
    wildcard.numeric &&= /^[-+\u2212]?\d[\d.,]*$/.test(token.text);
    wildcard.signed ||= /^[-+\u2212]/.test(token.text);
    wildcard.typeset ||= token.text.startsWith('\u2212');
    if (wildcard.values.size < MAX_VALUES) wildcard.values.add(token.text.slice(0, 200));
  });
}

function isMark(text: string): boolean {
  return !/[\p{L}\d]/u.test(text);
}

function wordsOf(tokens: readonly (string | null)[]): string[] {
  return tokens.flatMap((token) => (token !== null && /\p{L}{2}/u.test(token) ? [token.toLowerCase()] : []));
}
