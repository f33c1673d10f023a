import type { FieldLine } from './field-line.js';
import type { WhenText } from './kind.js';
import { isNumber } from './values.js';

/** Records with the same wording, split by whether they have an optional number. */
export interface Variant {
  readonly lines: readonly FieldLine[];
  /** Fields that all of them have, and fields that none has. */
  readonly present: readonly string[];
  readonly absent: readonly string[];
}

/** Fewer records with the number may be an accident, more are the rule. */
const MIN_LINES = 2;
const MAX_SHARE = 0.6;

/**
 * Splits records with the same wording if only some have a certain number: progress, or the attempt. Those repeat a
 * span that has already begun.
 */
export function byOptional(lines: readonly FieldLine[], timePaths: readonly string[]): Variant[] {
  const counts = new Map<string, { all: number; numbers: number }>();
  for (const { fields } of lines) {
    for (const [path, value] of fields) {
      if (value === '' || timePaths.includes(path)) continue;
      const count = counts.get(path) ?? { all: 0, numbers: 0 };
      counts.set(path, count);
      count.all++;
      if (isNumber(value)) count.numbers++;
    }
  }
  const [optional] = [...counts].find(
    ([, { all, numbers }]) => all >= MIN_LINES && all <= MAX_SHARE * lines.length && numbers === all,
  ) ?? [undefined];
  if (optional === undefined) return [{ lines, present: [], absent: [] }];
  const has = (line: FieldLine): boolean => (line.fields.get(optional) ?? '') !== '';
  return [
    { lines: lines.filter((line) => !has(line)), present: [], absent: [optional] },
    { lines: lines.filter(has), present: [optional], absent: [] },
  ];
}

/** The same pattern for each of these fields. */
export function pathsAs(paths: readonly string[], pattern: string): Record<string, string> {
  return Object.fromEntries(paths.map((path) => [path, pattern]));
}

/** A condition, preceded by conditions on further fields. */
export function whenApart(when: WhenText, apart: Readonly<Record<string, string>>): WhenText {
  return typeof when === 'string' ? when : { ...apart, ...when };
}
