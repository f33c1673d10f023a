/** Looks up a name: the text of a capture, column or constant, or a number; `undefined` when there is no such value. */
import { ownValue } from '../../model/index.js';
export type Lookup = (name: string) => string | number | undefined;

/** A formula over captures, columns and constants. NaN when a value is missing or not a number. */
export interface Formula {
  readonly source: string;
  /** The names it uses. */
  readonly names: ReadonlySet<string>;
  evaluate(lookup: Lookup): number;
}

/** An invalid formula, and the reason. */
export class FormulaError extends Error {}

type Term = (lookup: Lookup) => number;

const FUNCTIONS: Readonly<Record<string, { readonly arity: number; readonly apply: (...values: number[]) => number }>> =
  {
    abs: { arity: 1, apply: (x = NaN) => Math.abs(x) },
    sqrt: { arity: 1, apply: (x = NaN) => Math.sqrt(x) },
    round: { arity: 1, apply: (x = NaN) => Math.round(x) },
    min: { arity: 2, apply: (x = NaN, y = NaN) => Math.min(x, y) },
    max: { arity: 2, apply: (x = NaN, y = NaN) => Math.max(x, y) },
  };

const MAX_SOURCE = 500;
const MAX_DEPTH = 50;

/**
 * Compiles a formula: numbers, names (`scale`, or `{RA error}` for names with blanks), `+ - * /`, parentheses, `abs`,
 * `sqrt`, `round`, `min`, `max`, and `duration(name)`, which reads `1:02:03.5`, `2m 3s` or `123.5` as seconds.
 *
 * @param decimalComma whether values are printed with a decimal comma
 * @throws FormulaError when the syntax is wrong
 */
export function compileFormula(source: string, decimalComma: boolean): Formula {
  if (source.length > MAX_SOURCE) throw new FormulaError(`it is longer than ${MAX_SOURCE} characters`);
  const names = new Set<string>();
  const evaluate = new Parser(source, names, decimalComma).parse();
  return { source, names, evaluate };
}

/** A value as a number, or NaN. */
export function numberOf(value: string | number | undefined, decimalComma: boolean): number {
  if (typeof value !== 'string') return value ?? NaN;
  if (!decimalComma && NUMBER.test(value)) return Number(value);
  const text = value.trim().replace('\u2212', '-');
  const plain = decimalComma ? text.replace(/\./g, '').replace(',', '.') : text;
  return NUMBER.test(plain) ? Number(plain) : NaN;
}

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;

const AMOUNT = String.raw`(\d+(?:\.\d+)?)\s*`;
const HOURS = String.raw`(?:${AMOUNT}h[a-z]*\.?\s*)?`;
const MINUTES = String.raw`(?:${AMOUNT}m(?:in[a-z]*)?\.?\s*)?`;
const SECONDS = String.raw`(?:${AMOUNT}s[a-z]*\.?\s*)?`;
const WITH_UNITS = new RegExp(`^${HOURS}${MINUTES}${SECONDS}(?:${AMOUNT}ms)?$`, 'i');

/**
 * Seconds of a duration: `1:02:03.5`, `62:03`, `1h 2m 3.5s`, `350 ms`, `PT1H2M` as in ISO 8601, or plain seconds; NaN
 * for anything else.
 */
export function durationSeconds(value: string | number | undefined, decimalComma: boolean): number {
  if (typeof value !== 'string') return value ?? NaN;
  const text = (decimalComma ? value.replace(',', '.') : value).trim();
  if (/^\d+(:\d{1,2}){1,2}(\.\d+)?$/.test(text))
    return text.split(':').reduce((sum, part) => sum * 60 + Number(part), 0);
  const units = WITH_UNITS.exec(text.replace(/^PT(?=\d)/, ''));
  if (units === null || text === '') return numberOf(value, decimalComma);
  const [hours = 0, minutes = 0, seconds = 0, milliseconds = 0] = units.slice(1).map((part) => Number(part ?? 0));
  return hours * 3600 + minutes * 60 + seconds + milliseconds / 1000;
}

class Parser {
  private readonly tokens: readonly string[];
  private at = 0;
  private depth = 0;

  constructor(
    source: string,
    private readonly names: Set<string>,
    private readonly decimalComma: boolean,
  ) {
    this.tokens = source.match(/\d+\.?\d*|\.\d+|[A-Za-z_]\w*|\{[^{}]*\}|\S/g) ?? [];
  }

  parse(): Term {
    const term = this.sum();
    const rest = this.tokens[this.at];
    if (rest !== undefined) throw new FormulaError(`"${rest}" is not expected there`);
    return term;
  }

  private sum(): Term {
    let left = this.product();
    for (let sign = this.take('+', '-'); sign !== null; sign = this.take('+', '-')) {
      const [a, b] = [left, this.product()];
      left = sign === '+' ? (lookup) => a(lookup) + b(lookup) : (lookup) => a(lookup) - b(lookup);
    }
    return left;
  }

  private product(): Term {
    let left = this.factor();
    for (let sign = this.take('*', '/'); sign !== null; sign = this.take('*', '/')) {
      const [a, b] = [left, this.factor()];
      left = sign === '*' ? (lookup) => a(lookup) * b(lookup) : (lookup) => a(lookup) / b(lookup);
    }
    return left;
  }

  private factor(): Term {
    if (++this.depth > MAX_DEPTH) throw new FormulaError('it is nested too deeply');
    try {
      if (this.take('-') !== null) {
        const inner = this.factor();
        return (lookup) => -inner(lookup);
      }
      if (this.take('(') !== null) {
        const inner = this.sum();
        this.expect(')');
        return inner;
      }
      return this.value();
    } finally {
      this.depth--;
    }
  }

  private value(): Term {
    const token = this.tokens[this.at++];
    if (token === undefined) throw new FormulaError('it ends where a number or a name is expected');
    if (/^[\d.]/.test(token) && token !== '.') {
      const value = Number(token);
      return () => value;
    }
    const name = nameIn(token);
    if (name === null) throw new FormulaError(`"${token}" is not expected there`);
    if (this.take('(') !== null) return this.call(name);
    this.names.add(name);
    return (lookup) => numberOf(lookup(name), this.decimalComma);
  }

  private call(name: string): Term {
    if (name === 'duration') {
      const argument = nameIn(this.tokens[this.at++] ?? '');
      if (argument === null) throw new FormulaError('duration() takes the name of a value');
      this.expect(')');
      this.names.add(argument);
      return (lookup) => durationSeconds(lookup(argument), this.decimalComma);
    }
    const known = ownValue(FUNCTIONS, name);
    if (known === undefined)
      throw new FormulaError(
        `there is no function "${name}"; use ${[...Object.keys(FUNCTIONS), 'duration'].join(', ')}`,
      );
    const terms = [this.sum()];
    while (this.take(',') !== null) terms.push(this.sum());
    this.expect(')');
    if (terms.length !== known.arity)
      throw new FormulaError(`${name}() takes ${known.arity} value${known.arity === 1 ? '' : 's'}`);
    return (lookup) => known.apply(...terms.map((term) => term(lookup)));
  }

  private take(...wanted: string[]): string | null {
    const token = this.tokens[this.at];
    if (token === undefined || !wanted.includes(token)) return null;
    this.at++;
    return token;
  }

  private expect(token: string): void {
    if (this.take(token) === null) throw new FormulaError(`"${token}" is missing`);
  }
}

function nameIn(token: string): string | null {
  if (/^[A-Za-z_]\w*$/.test(token)) return token;
  return /^\{[^{}]+\}$/.test(token) ? token.slice(1, -1) : null;
}
