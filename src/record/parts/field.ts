/**
 * Fields of the record's parts: each defines its content and its treatment when a night is shared. Fields without a
 * class cannot be written: a part lists every field of its type, or it does not compile.
 */
import { z } from 'zod';
import type { Interval } from '../../model/index.js';
import { MOST_EVENTS, type RedactionClass } from '../../vocabulary/index.js';

/** What coarsening a field needs to know about the whole night. */
export interface Redaction {
  /** An instant, counted from the night's first exposure. UTC ms in, ms of the shared clock out. */
  readonly instant: (atMs: number) => number;
  /** A file's name in the shared edition: `heron Ha 0025`. */
  readonly file: (path: string) => string;
  /** A frame's id in the shared edition: ids hold times. */
  readonly frame: (id: string) => string;
  /** The span of the activity, on the shared clock. */
  readonly window: Interval;
}

/** One field. */
export interface Field<T> {
  readonly schema: z.ZodType<T>;
  readonly share: RedactionClass;
  /** The field as it is shared. */
  redact(value: T, how: Redaction): T;
}

type Plain = string | number | boolean | null | undefined;
/** What may be copied whole, because nothing in it could have its own class. */
type Copied = Plain | readonly Copied[] | { readonly [key: string]: Copied };

/** Copied as it is. */
export function open<T extends Copied>(schema: z.ZodType<T>): Field<T> {
  return { schema, share: 'public', redact: (value) => value };
}

/** Made coarse. */
export function coarse<T>(schema: z.ZodType<T>, redact: (value: T, how: Redaction) => T): Field<T> {
  return { schema, share: 'coarse', redact };
}

/** Left out. @param instead the substitute if the type requires one */
export function hidden<T>(schema: z.ZodType<T>, instead: T): Field<T> {
  return { schema, share: 'private', redact: () => instead };
}

/** An object of fields; anything else is dropped, when reading and when sharing. */
export function part<T extends object>(fields: { readonly [K in keyof T]-?: Field<T[K]> }): Field<T> {
  const names = Object.keys(fields) as (keyof T & string)[];
  const shape = Object.fromEntries(names.map((name) => [name, fields[name].schema]));
  return {
    // The fields are those of T, each with the schema of its type: zod infers the same from the shape, less legibly.
    schema: z.object(shape) as unknown as z.ZodType<T>,
    share: 'coarse',
    redact: (value, how) => {
      const shared = names.flatMap((name) => {
        const one = fields[name].redact(value[name], how);
        return one === undefined ? [] : [[name, one] as const];
      });
      return Object.fromEntries(shared) as T;
    },
  };
}

/** Many of one field, limited to what a night has. */
export function list<T>(item: Field<T>, most = MOST_EVENTS): Field<readonly T[]> {
  return {
    schema: z.array(item.schema).max(most),
    share: item.share,
    redact: (values, how) => values.map((value) => item.redact(value, how)),
  };
}

/** A field that may be `null`. */
export function maybe<T>(field: Field<T>): Field<T | null> {
  return {
    schema: field.schema.nullable(),
    share: field.share,
    redact: (value, how) => (value === null ? null : field.redact(value, how)),
  };
}

/** A field that may be absent. */
export function optional<T>(field: Field<T>): Field<T | undefined> {
  return {
    schema: field.schema.optional(),
    share: field.share,
    redact: (value, how) => (value === undefined ? undefined : field.redact(value, how)),
  };
}

/** Fields by the id of a frame. */
export function byFrame<T>(item: Field<T>): Field<Readonly<Record<string, T>>> {
  return {
    schema: z.record(z.string(), item.schema),
    share: item.share,
    redact: (values, how) =>
      Object.fromEntries(Object.entries(values).map(([id, value]) => [how.frame(id), item.redact(value, how)])),
  };
}

/** One of several kinds, each with its own fields. */
export function byKind<K extends string, T extends { readonly kind: K }>(
  kinds: readonly [K, ...K[]],
  of: (kind: K) => Field<T>,
): Field<T> {
  const fields = new Map(kinds.map((kind) => [kind, of(kind)]));
  const [first, ...rest] = [...fields.values()].map((field) => field.schema as unknown as z.ZodObject);
  if (first === undefined) throw new RangeError('nothing is of no kind');
  return {
    schema: z.discriminatedUnion('kind', [first, ...rest]) as unknown as z.ZodType<T>,
    share: 'coarse',
    redact: (value, how) => {
      const field = fields.get(value.kind);
      if (field === undefined) throw new RangeError(`${value.kind} is no kind of it`);
      return field.redact(value, how);
    },
  };
}
