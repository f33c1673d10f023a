import { groupBy } from '../../../../model/index.js';
import { isTelling, saysMotion } from '../lexicon/said.js';
import type { FieldLine } from './field-line.js';
import type { Variant } from './optional-fields.js';

/** Fewer records may lack, for once, what others have. */
const MIN_LINES = 3;
const MOST = 8;

/**
 * Takes records apart that say no more than who wrote them, and have not one further field in common: readings of a
 * cooler and of a plate, say.
 */
export function disjoint(
  lines: readonly FieldLine[],
  telling: readonly string[],
  timePaths: readonly string[],
): Variant[] {
  const whole = [{ lines, present: [], absent: [] }];
  const [first] = lines;
  if (first === undefined || lines.length < 2 * MIN_LINES) return whole;
  const said = telling.map((path) => first.fields.get(path) ?? '');
  if (said.every((value) => value === '') || said.some((value) => isTelling(value) || saysMotion(value))) return whole;
  const own = ({ fields }: FieldLine): string[] =>
    [...fields].flatMap(([path, value]) =>
      value === '' || telling.includes(path) || timePaths.includes(path) ? [] : [path],
    );
  /** Each field with the one that stands for all it is seen with, from record to record. */
  const heads = new Map<string, string>();
  const headOf = (path: string): string => {
    const above = heads.get(path) ?? path;
    return above === path ? path : headOf(above);
  };
  for (const line of lines) {
    const [one, ...others] = own(line);
    if (one !== undefined) for (const other of others) heads.set(headOf(other), headOf(one));
  }
  const parts = groupBy(lines, (line) => own(line).map(headOf)[0] ?? '');
  const common = [...parts].map(([head, of]) => ({
    of,
    path: head === '' ? undefined : own(of[0] ?? first).find((path) => of.every((line) => own(line).includes(path))),
  }));
  const named = common.filter(({ of, path }) => path !== undefined && of.length >= MIN_LINES);
  if (named.length < 1 || common.length < 2 || common.length > MOST) return whole;
  const rest = common.filter((one) => !named.includes(one)).flatMap(({ of }) => of);
  const variants = named.map(({ of, path }) => ({ lines: of, present: path === undefined ? [] : [path], absent: [] }));
  const absent = named.flatMap(({ path }) => path ?? []);
  return rest.length === 0 ? variants : [...variants, { lines: rest, present: [], absent }];
}
