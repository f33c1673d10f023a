/**
 * YAML with positions: parse errors are reported as `file:line: what to write`.
 */
import {
  isAlias,
  isMap,
  isNode,
  isScalar,
  isSeq,
  Lexer,
  LineCounter,
  parseDocument,
  visit,
  type Document,
  type Pair,
  type YAMLMap,
} from 'yaml';

/** Aliases beyond this many expansions are refused: a small file must not unfold into gigabytes. */
const MAX_ALIASES = 50;
/** A configuration file larger than this is no configuration file. */
const MAX_BYTES = 2_000_000;
/** Nor is one of more pieces: marks, words and blanks. A goals file of a thousand targets has a quarter of them. */
const MAX_PIECES = 200_000;
/** At most: the mark of a scalar, the scalar, and an end that stands nowhere. A short text need not be counted. */
const PIECES_PER_CHARACTER = 3;
/** The engine's message when nesting exhausts the stack. */
const STACK_FULL = 'call stack';
const TOO_DEEP = { message: 'nested too deeply; write it with less nesting' } as const;
/** Problems beyond this many are counted, not listed: such a file is best looked at from its first line on. */
const SHOWN_PROBLEMS = 20;

/** The input could not be used; `problems` are complete sentences with file and line, the many of one file cut. */
export class ConfigError extends Error {
  override readonly name = 'ConfigError';
  readonly problems: readonly string[];

  constructor(problems: readonly string[]) {
    const left = problems.length - SHOWN_PROBLEMS;
    const shown =
      left > 0 ? [...problems.slice(0, SHOWN_PROBLEMS), `and ${left} more; begin with the first`] : problems;
    super(shown.join('\n'));
    this.problems = shown;
  }
}

/** A parsed YAML text that can report the line of a path. */
export interface YamlFile {
  readonly value: unknown;
  /** 1-based line of the key or list item that the path names, or of the nearest written thing above it. */
  lineOf(path: readonly PropertyKey[]): number;
}

/** A text that is not YAML, or not trustworthy. `line` is 1-based; absent if no line is at fault. */
export interface YamlProblem {
  readonly line?: number;
  readonly message: string;
}

/** YAML as far as it could be read. */
export type YamlReading =
  | { readonly ok: true; readonly yaml: YamlFile }
  | { readonly ok: false; readonly problems: readonly [YamlProblem, ...YamlProblem[]] };

/** Reads YAML 1.2 from an untrusted text. Never throws. */
export function readYaml(text: string): YamlReading {
  if (text.length > MAX_BYTES) return refused({ message: 'larger than 2 MB; this is not a configuration file' });
  if (text.length * PIECES_PER_CHARACTER > MAX_PIECES && isLongerThan(MAX_PIECES, new Lexer().lex(text)))
    return refused({ message: `more than ${MAX_PIECES} words and marks; this is not a configuration file` });
  const lines = new LineCounter();
  try {
    const document = parseDocument(text.replace(/^\uFEFF/, ''), {
      lineCounter: lines,
      prettyErrors: false,
      logLevel: 'silent',
      // The library compares each key with all before it.
      uniqueKeys: false,
    });
    if (document.errors.some(({ message }) => message.includes(STACK_FULL))) return refused(TOO_DEEP);
    const [first, ...more] = [
      // What follows the first few follows from them.
      ...document.errors.slice(0, MOST_SYNTAX_ERRORS).map(({ pos: [start], message }) => ({ start, message })),
      ...repeatedKeys(document),
    ]
      .map(({ start, message }) => ({
        line: lines.linePos(start).line,
        message: `not valid YAML: ${message}${hintOf(message)}`,
      }))
      .filter(isAnother);
    if (first !== undefined) return refused(first, ...more);
    const knot = knotIn(document);
    if (knot !== undefined) return refused({ line: lines.linePos(knot).line, message: KNOT });
    const value: unknown = document.toJS({ maxAliasCount: MAX_ALIASES });
    const pairs = pairsByKey();
    return { ok: true, yaml: { value, lineOf: (path) => lineOf(document, lines, path, pairs) } };
  } catch (error) {
    // Too many aliases, or a structure nested beyond the stack.
    const why = error instanceof Error ? error.message : String(error);
    if (why.includes(STACK_FULL)) return refused(TOO_DEEP);
    return refused({ message: `${why}; write the values out, with fewer aliases and less nesting` });
  }
}

const MOST_SYNTAX_ERRORS = 3;
/** What mostly lies behind an error of the library, by a part of its words. */
const HINTS: readonly (readonly [RegExp, string])[] = [
  [/^Implicit (?:map )?keys need to be/, 'is a colon missing after a key, or before its value?'],
  [/^All mapping items must start/, 'do the keys of one map begin in the same column?'],
  [/^Nested mappings are not allowed/, 'does text with a colon lack quotes, or is a line break missing?'],
];

function hintOf(message: string): string {
  const hint = HINTS.find(([words]) => words.test(message))?.[1];
  return hint === undefined ? '' : `; ${hint}`;
}

function isLongerThan(most: number, pieces: Iterable<unknown>): boolean {
  let count = 0;
  for (const _piece of pieces) if (++count > most) return true;
  return false;
}

const KNOT = 'an alias refers to its own container, which is endless; write the values out';

/** Position of an alias that refers to its own container. */
function knotIn(document: Document.Parsed): number | undefined {
  let at: number | undefined;
  visit(document, {
    Alias: (_key, alias, path) => {
      if (!path.some((node) => 'anchor' in node && node.anchor === alias.source)) return undefined;
      at = startOf(alias);
      return visit.BREAK;
    },
  });
  return at;
}

/** The keys that occur twice in one map. */
function repeatedKeys(document: Document.Parsed): { readonly start: number; readonly message: string }[] {
  const repeated: { start: number; message: string }[] = [];
  visit(document, {
    Map: (_key, { items }) => {
      const seen = new Set<unknown>();
      for (const { key } of items) {
        if (!isScalar(key)) continue;
        const start = startOf(key);
        if (seen.has(key.value) && start !== undefined) repeated.push({ start, message: 'Map keys must be unique' });
        seen.add(key.value);
      }
    },
  });
  return repeated;
}

/** Whether a problem is not the one before it once more: text nested too deeply is one at every level. */
function isAnother({ line, message }: YamlProblem, index: number, all: readonly YamlProblem[]): boolean {
  const before = all[index - 1];
  return before?.line !== line || before?.message !== message;
}

function refused(...problems: [YamlProblem, ...YamlProblem[]]): YamlReading {
  return { ok: false, problems };
}

/**
 * Parses YAML 1.2 from an untrusted file.
 *
 * @throws ConfigError with one sentence per syntax error
 */
export function parseYaml(name: string, text: string): YamlFile {
  const read = readYaml(text);
  if (read.ok) return read.yaml;
  throw new ConfigError([
    ...read.problems.map(({ line, message }) => `${line === undefined ? name : `${name}:${line}`}: ${message}`),
    `${name}: its keys and values are checked once it can be read`,
  ]);
}

/** Finds pairs of maps by their keys; each map is gone through once, however often it is asked. */
function pairsByKey(): (map: YAMLMap, key: string) => Pair | undefined {
  const known = new WeakMap<YAMLMap, Map<string, Pair>>();
  return (map, key) => {
    let pairs = known.get(map);
    if (pairs === undefined) {
      pairs = new Map(map.items.flatMap((item) => (isScalar(item.key) ? [[String(item.key.value), item]] : [])));
      known.set(map, pairs);
    }
    return pairs.get(key);
  };
}

function lineOf(
  document: Document.Parsed,
  lines: LineCounter,
  path: readonly PropertyKey[],
  pairOf: ReturnType<typeof pairsByKey>,
): number {
  let here: unknown = document.contents;
  let start = startOf(here);
  for (const key of path) {
    if (isAlias(here)) here = here.resolve(document);
    if (isMap(here)) {
      const pair = pairOf(here, String(key));
      if (pair === undefined) break;
      start = startOf(pair.key) ?? start;
      here = pair.value;
    } else if (isSeq(here) && typeof key === 'number' && key in here.items) {
      here = here.items[key];
      start = startOf(here) ?? start;
    } else break;
  }
  return start === undefined ? 1 : lines.linePos(start).line;
}

/** Where a node begins in the text. */
function startOf(node: unknown): number | undefined {
  return isNode(node) ? node.range?.[0] : undefined;
}
