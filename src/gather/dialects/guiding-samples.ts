import type { GuidingRule, SampleListRule } from './compiled.js';
import type { Lookup } from './formula.js';
import type { LineValues } from './line-values.js';
import type { Pattern } from './pattern/pattern.js';
import { sampleList } from './records/sample-list.js';

/** Maximum number of samples in one line. */
const MAX_SAMPLES = 10_000;
const NUMBER = /[-+\u2212]?\d+(?:[.,]\d+)?/g;
const POINTED = /[-+\u2212]?\d+(?:\.\d+)?/g;

/** The values of one of a line's several samples, and its own time if stated. */
export interface OneOfSeveral {
  readonly ra: number;
  readonly dec: number;
  readonly snr: number;
  readonly time: string | undefined;
}

/** The samples of a text in which every match is one, or in which a match holds two lists of errors. */
export function samplesIn(
  text: string,
  pattern: Pattern,
  rule: GuidingRule,
  values: LineValues,
  decimalComma: boolean,
): OneOfSeveral[] {
  return rule.each === 'lists'
    ? samplesOfLists(text, pattern, rule, values, decimalComma)
    : samplesOfMatches(text, pattern, rule, values);
}

function samplesOfMatches(text: string, pattern: Pattern, rule: GuidingRule, values: LineValues): OneOfSeveral[] {
  const samples: OneOfSeveral[] = [];
  let from = 0;
  while (samples.length < MAX_SAMPLES) {
    const rest = text.slice(from);
    const captures = pattern.exec(rest);
    const [whole = ''] = captures ?? [];
    if (captures === null || whole === '') break;
    values.useText(pattern, captures);
    samples.push({ ...errorsOf(rule, values.lookup), time: values.captured('time') });
    from += rest.indexOf(whole) + whole.length;
  }
  return samples;
}

function samplesOfLists(
  text: string,
  pattern: Pattern,
  rule: GuidingRule,
  values: LineValues,
  decimalComma: boolean,
): OneOfSeveral[] {
  const captures = pattern.exec(text);
  if (captures === null) return [];
  values.useText(pattern, captures);
  const list = (name: string): string[] => values.captured(name)?.match(decimalComma ? NUMBER : POINTED) ?? [];
  const lists = new Map(['ra', 'dec', 'snr'].map((name) => [name, list(name)] as const));
  const [ra = [], dec = []] = [lists.get('ra'), lists.get('dec')];
  // With lists of different lengths it is unknown which values belong together.
  if (ra.length !== dec.length) return [];
  return ra.slice(0, MAX_SAMPLES).map((_, i) => {
    const lookup: Lookup = (name) => (lists.has(name) ? lists.get(name)?.[i] : values.lookup(name));
    return { ...errorsOf(rule, lookup), time: undefined };
  });
}

/** The samples that a record holds as a list, with times as text or as seconds after an instant of the record. */
export function samplesOfRecord(
  text: string,
  rule: GuidingRule,
  list: SampleListRule,
  outer: Lookup,
): (OneOfSeveral & { readonly afterS: number })[] {
  const names = [rule.ra, rule.dec, list.after].flatMap((formula) => [...(formula?.names ?? [])]);
  const found = sampleList(text, list.path, [...names, ...(list.time === null ? [] : [list.time])]);
  if (found === null) return [];
  return Array.from({ length: Math.min(found.length, MAX_SAMPLES) }, (_, i) => {
    const lookup: Lookup = (name) => found.value(i, name) ?? outer(name);
    return {
      ...errorsOf(rule, lookup),
      time: list.time === null ? undefined : found.value(i, list.time),
      afterS: list.after?.evaluate(lookup) ?? NaN,
    };
  });
}

function errorsOf(rule: GuidingRule, lookup: Lookup): { ra: number; dec: number; snr: number } {
  return { ra: rule.ra.evaluate(lookup), dec: rule.dec.evaluate(lookup), snr: rule.snr?.evaluate(lookup) ?? NaN };
}

/**
 * The times of a line's equally spaced samples, ms.
 *
 * @param atMs the line's time, which is that of the first or of the last
 */
export function steadyTimes(atMs: number, count: number, { every, timed }: GuidingRule): number[] {
  const stepMs = every === null ? 0 : every * 1000;
  return Array.from({ length: count }, (_, i) => Math.round(atMs + (timed === 'first' ? i : i - count + 1) * stepMs));
}
