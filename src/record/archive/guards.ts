/**
 * Whether JSON values have a shape. For data used as it is, a thousand times: nothing is copied, and errors are not
 * described.
 */
import { isObject } from '../../model/index.js';

/** Determines whether a value is of a kind. */
export type Guard<T> = (value: unknown) => value is T;

export const isBoolean = (value: unknown): value is boolean => typeof value === 'boolean';

/** JSON has no other numbers, except those too large to be represented. */
export const isNumber = (value: unknown): value is number => Number.isFinite(value);

/** A finite number within bounds, these included. */
export function within(least: number, most = Number.MAX_VALUE): Guard<number> {
  return (value): value is number => typeof value === 'number' && value >= least && value <= most;
}

/** A text of at most this many characters. */
export function upTo(length: number): Guard<string> {
  return (value): value is string => typeof value === 'string' && value.length <= length;
}

export function oneOf<T extends string>(values: readonly T[]): Guard<T> {
  return (value): value is T => values.some((one) => one === value);
}

export function orNull<T>(guard: Guard<T>): Guard<T | null> {
  return (value): value is T | null => value === null || guard(value);
}

/** An optional field. */
export function optional<T>(guard: Guard<T>): Guard<T | undefined> {
  return (value): value is T | undefined => value === undefined || guard(value);
}

export function listOf<T>(guard: Guard<T>): Guard<readonly T[]> {
  return (value): value is readonly T[] => Array.isArray(value) && value.every(guard);
}

export function pairOf<T>(guard: Guard<T>): Guard<readonly [T, T]> {
  return (value): value is readonly [T, T] => Array.isArray(value) && value.length === 2 && value.every(guard);
}

/** An object whose keys are not known beforehand. */
export function byKey<K extends string, V>(isKey: Guard<K>, isValue: Guard<V>): Guard<Readonly<Record<K, V>>> {
  return (value): value is Readonly<Record<K, V>> =>
    isObject(value) && Object.keys(value).every((key) => isKey(key) && isValue(value[key]));
}

/** An object with these fields; others are ignored. */
export function fields<T extends object>(shape: { readonly [K in keyof T]-?: Guard<T[K]> }): Guard<T> {
  const guards = Object.entries<Guard<unknown>>(shape);
  return (value): value is T => isObject(value) && guards.every(([key, guard]) => guard(value[key]));
}
