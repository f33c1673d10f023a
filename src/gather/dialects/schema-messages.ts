import { clipped, FORMER_EVENTS } from '../../vocabulary/index.js';
import { z } from 'zod';

/** One problem in a dialect file: where, what, and what to write instead. */
export interface Problem {
  readonly path: readonly (string | number)[];
  readonly message: string;
}

type Issue = z.core.$ZodIssue;
type Schema = z.core.$ZodType;

/** The issues of a failed validation as sentences that name the fix. */
export function explainIssues(issues: readonly Issue[], schema: Schema): Problem[] {
  return issues.flatMap((issue) => explain(issue, schema, []));
}

function explain(issue: Issue, schema: Schema, parent: readonly PropertyKey[]): Problem[] {
  const fullPath = [...parent, ...issue.path];
  const path = fullPath.map((key) => (typeof key === 'symbol' ? String(key) : key));
  switch (issue.code) {
    case 'unrecognized_keys': {
      const known = knownKeys(schemaAt(schema, path));
      return issue.keys.map((key) => ({
        path: [...path, key],
        message: `the key "${key}" is not known here; ${suggestion(key, known)}`,
      }));
    }
    case 'invalid_union':
      return explainUnion(issue, schema, fullPath, path);
    case 'invalid_type':
      return [
        {
          path,
          message:
            `${article(issue.expected)} is expected` +
            (issue.input === undefined ? ', and nothing is given here' : '') +
            (issue.expected === 'string' ? quoteHint(issue.input) : ''),
        },
      ];
    case 'invalid_value':
      return [{ path, message: unexpectedValue(issue.values, issue.input) }];
    case 'invalid_key':
      return [
        {
          path,
          message:
            'the key is not known here; ' +
            issue.issues
              .map((inner) =>
                inner.code === 'invalid_value'
                  ? suggestion(String(path.at(-1)), inner.values.map(String))
                  : inner.message,
              )
              .join(' '),
        },
      ];
    case 'too_big':
      return [
        { path, message: `this is too ${issue.origin === 'string' ? 'long' : 'much'}; at most ${issue.maximum}` },
      ];
    case 'too_small':
      return [
        {
          path,
          message:
            'this must not be ' +
            `${issue.origin === 'string' || issue.origin === 'array' ? 'empty' : `less than ${issue.minimum}`}`,
        },
      ];
    default:
      return [{ path, message: issue.message }];
  }
}

/** The issues of the intended branch: the one that passed the type check of the value itself. */
function explainUnion(
  issue: Extract<Issue, { code: 'invalid_union' }>,
  schema: Schema,
  fullPath: readonly PropertyKey[],
  path: readonly (string | number)[],
): Problem[] {
  const isTypeOnly = (branch: readonly Issue[]): boolean =>
    branch.some(
      (inner) => inner.path.length === 0 && (inner.code === 'invalid_type' || inner.code === 'invalid_value'),
    );
  const meant = issue.errors.find((branch) => !isTypeOnly(branch));
  if (meant !== undefined) return meant.flatMap((inner) => explain(inner, schema, fullPath));
  const values = issue.errors.flat().flatMap((inner) => (inner.code === 'invalid_value' ? inner.values : []));
  if (values.length > 0 && typeof issue.input === 'string')
    return [{ path, message: unexpectedValue(values, issue.input) }];
  const types = issue.errors
    .flat()
    .flatMap((inner) => (inner.code === 'invalid_type' ? [article(inner.expected)] : []));
  const expected = [...new Set([...values.map((value) => `"${String(value)}"`), ...types])];
  return [
    {
      path,
      message: `${listed(expected, 'or')} is expected${expected.includes('a text') ? quoteHint(issue.input) : ''}`,
    },
  ];
}

function unexpectedValue(values: readonly unknown[], input: unknown): string {
  const renamed = typeof input === 'string' ? FORMER_EVENTS.get(input) : undefined;
  if (renamed !== undefined && values.includes(renamed)) return `"${String(input)}" is now called "${renamed}"`;
  if (values.length === 1) return `${JSON.stringify(values[0])} is expected`;
  // Serialised as JSON rather than with its own method: a map may hold a key `toString`.
  const written = clipped(JSON.stringify(input) ?? 'nothing');
  const meant = typeof input === 'string' ? clipped(input) : written;
  return `${written} is not known; ${suggestion(meant, values.map(String))}`;
}

function quoteHint(input: unknown): string {
  const isMap = typeof input === 'object' && input !== null;
  return isMap ? '; put it in quotes, because braces and brackets have a meaning in YAML' : '';
}

function article(type: string): string {
  const names: Record<string, string> = {
    string: 'a text',
    number: 'a number',
    boolean: 'true or false',
    object: 'a map of keys',
    record: 'a map of keys',
    array: 'a list',
  };
  return names[type] ?? type;
}

function listed(items: readonly string[], last: string): string {
  return items.length < 2 ? (items[0] ?? 'something else') : `${items.slice(0, -1).join(', ')} ${last} ${items.at(-1)}`;
}

/** "did you mean …", or the whole list. */
export function suggestion(written: string, known: readonly string[]): string {
  const nearest = known
    .map((name) => ({ name, distance: editDistance(written.toLowerCase(), name.toLowerCase()) }))
    .sort((a, b) => a.distance - b.distance)[0];
  if (nearest !== undefined && nearest.distance <= (nearest.name.length < 4 ? 1 : Math.max(2, nearest.name.length / 3)))
    return `did you mean "${nearest.name}"?`;
  return known.length === 0
    ? 'nothing is known here'
    : `use ${listed(
        known.map((name) => `"${name}"`),
        'or',
      )}`;
}

/** Levenshtein distance between short names. */
function editDistance(a: string, b: string): number {
  if (Math.abs(a.length - b.length) > 20) return 99;
  let row = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(change, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row[b.length] ?? 99;
}

function knownKeys(schema: Schema | undefined): string[] {
  if (schema instanceof z.ZodObject) return Object.keys(schema.shape);
  return schema instanceof z.ZodRecord && schema.keyType instanceof z.ZodEnum ? schema.keyType.options.map(String) : [];
}

function schemaAt(schema: Schema, path: readonly (string | number)[]): Schema | undefined {
  let here: Schema | undefined = bare(schema);
  for (const key of path) {
    if (here instanceof z.ZodUnion) here = here.options.map(bare).find((option) => stepInto(option, key) !== undefined);
    here = here === undefined ? undefined : stepInto(here, key);
  }
  return here instanceof z.ZodUnion ? here.options.map(bare).find((option) => option instanceof z.ZodObject) : here;
}

function stepInto(schema: Schema, key: string | number): Schema | undefined {
  const inner: Schema | undefined =
    schema instanceof z.ZodObject
      ? schema.shape[key]
      : schema instanceof z.ZodArray
        ? schema.element
        : schema instanceof z.ZodRecord
          ? schema.valueType
          : undefined;
  return inner === undefined ? undefined : bare(inner);
}

function bare(schema: Schema): Schema {
  return schema instanceof z.ZodOptional || schema instanceof z.ZodDefault ? bare(schema.unwrap()) : schema;
}
