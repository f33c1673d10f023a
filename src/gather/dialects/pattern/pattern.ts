import { RE2JS, RE2JSException } from 're2js';
import { steadyMs } from '../../../files/steady-clock.js';
import { itemAt } from '../../../model/collections.js';
import { requiredLiterals } from './literals.js';
import { nativePattern, type NativePattern } from './native.js';
import { parsePattern } from './syntax.js';

/** Longest pattern, and the largest program it may compile to: together with the cap on text they bound a match. */
const MAX_SOURCE = 2000;
const MAX_PROGRAM = 1000;

/** The captures of the pattern's groups, by group number; `undefined` for groups that did not participate. */
export type Captures = readonly (string | undefined)[];

/** A compiled pattern. Matching takes time linear in the text, whatever the pattern. */
export interface Pattern {
  readonly source: string;
  /** Group numbers by name. */
  readonly groups: ReadonlyMap<string, number>;
  /** Literals (lower case) of which every match contains one, ignoring ASCII case; `null` when none is required. */
  readonly literals: readonly string[] | null;
  /** Whether the native engine runs it, at least on ordinary texts. */
  readonly native: boolean;
  /** Searches the text for the first match. */
  exec(text: string): Captures | null;
  /** Whether it matches: faster if nothing is captured. */
  test(text: string): boolean;
}

/**
 * Time that the patterns of one dialect may take in the linear-time engine, in total. Linear is not always fast: a
 * thousand states on every character of a gigabyte take hours. An ordinary dialect needs seconds.
 */
export class MatchBudget {
  constructor(private leftMs = 120_000) {}

  get isSpent(): boolean {
    return this.leftMs <= 0;
  }

  spend(ms: number): void {
    this.leftMs -= ms;
  }
}

/** An invalid pattern, and the reason. */
export class PatternError extends Error {}

/**
 * Compiles a pattern in RE2 syntax. If proven harmless it runs in the native engine, else in RE2JS; both find the same
 * match. When the budget is spent, patterns that need the linear-time engine no longer match anything.
 *
 * @throws PatternError when the syntax is wrong or the pattern is too large
 */
export function compilePattern(source: string, ignoreCase: boolean, budget = new MatchBudget()): Pattern {
  const engine = usableEngine(source, ignoreCase);
  const tree = parsePattern(source, ignoreCase);
  const native = tree === null ? null : nativePattern(tree);
  return {
    source,
    groups: new Map(Object.entries(engine.namedGroups())),
    literals: tree === null ? null : requiredLiterals(tree),
    native: native !== null,
    ...(native === null ? linearSearch(engine, budget) : nativeSearch(native, linearSearch(engine, budget))),
  };
}

/** Cache of recent engines: a draft checks whether each of its patterns is usable, then uses it. */
const engines = new Map<string, RE2JS>();
const KEPT = 500;

/**
 * The linear-time engine of a pattern that a dialect may contain.
 *
 * @throws PatternError when the syntax is wrong or the pattern is too large
 */
export function usableEngine(source: string, ignoreCase: boolean): RE2JS {
  const key = `${ignoreCase ? 'i' : ''}/${source}`;
  const known = engines.get(key);
  if (known !== undefined) return known;
  if (source.length > MAX_SOURCE) throw new PatternError(`it is longer than ${MAX_SOURCE} characters`);
  const engine = compileLinear(source, ignoreCase);
  if (engine.programSize() > MAX_PROGRAM)
    throw new PatternError('it expands to too large a program; lower its repeat counts');
  // `^$` means an empty cell or field.
  if (engine.test('') && engine.test('x')) throw new PatternError('it matches the empty text, and so every line');
  if (engines.size >= KEPT) engines.clear();
  engines.set(key, engine);
  return engine;
}

function compileLinear(source: string, ignoreCase: boolean): RE2JS {
  try {
    return RE2JS.compile(source, ignoreCase ? RE2JS.CASE_INSENSITIVE : 0);
  } catch (error) {
    if (error instanceof RE2JSException) throw new PatternError(error.message.replace(/^error parsing regexp: /, ''));
    if (error instanceof RangeError) throw new PatternError('it is nested too deeply');
    throw error;
  }
}

/** How a pattern is searched for. */
type Search = Pick<Pattern, 'exec' | 'test'>;

/** The library's name for an unanchored search. */
const ANYWHERE = 0;

function linearSearch(engine: RE2JS, budget: MatchBudget): Search {
  const program = engine.re2();
  /** Begin and end of each of the first groups; −1 for groups that did not participate. */
  const places = (text: string, groups: number): readonly number[] | null => {
    if (budget.isSpent) return null;
    const begin = steadyMs();
    const [, found]: readonly unknown[] = program.matchWithGroup(text, 0, text.length, ANYWHERE, groups);
    budget.spend(steadyMs() - begin);
    return Array.isArray(found) ? found : null;
  };
  // All groups at once: the library's own matcher finds the match, and its groups in a second pass.
  const groups = 1 + engine.groupCount();
  return {
    exec(text) {
      const found = places(text, groups);
      if (found === null) return null;
      const captures: (string | undefined)[] = [];
      for (let i = 0; i < found.length; i += 2) {
        const start = itemAt(found, i);
        captures.push(start < 0 ? undefined : text.slice(start, itemAt(found, i + 1)));
      }
      return captures;
    },
    test: (text) => places(text, 1) !== null,
  };
}

function nativeSearch({ source, guards }: NativePattern, fallback: Search): Search {
  const regExp = new RegExp(source, 'u');
  if (guards.length === 0) return { exec: (text) => regExp.exec(text), test: (text) => regExp.test(text) };
  return {
    exec: (text) => (isGuarded(text, guards) ? regExp.exec(text) : fallback.exec(text)),
    test: (text) => (isGuarded(text, guards) ? regExp.test(text) : fallback.test(text)),
  };
}

const MAX_OCCURRENCES = 64;

/** Whether the literals' occurrence counts, multiplied, stay within the bound. */
function isGuarded(text: string, guards: readonly string[]): boolean {
  let product = 1;
  for (const guard of guards) {
    let count = 0;
    for (let at = text.indexOf(guard); at !== -1; at = text.indexOf(guard, at + 1)) {
      if (++count * product > MAX_OCCURRENCES) return false;
    }
    product *= Math.max(1, count);
  }
  return true;
}
