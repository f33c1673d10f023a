import { groupBy } from '../../../../model/index.js';
import { isTelling, saysMotion } from '../lexicon/said.js';
import type { FieldLine } from './field-line.js';
import type { Variant } from './optional-fields.js';

/** Fewer records may lack by accident what others have. */
const MIN_LINES = 3;
const MOST = 8;

/**
 * Splits records that say only who wrote them and have no other field in common: readings of a cooler and of a mount,
 * for example.
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
  const found = apart(lines, own);
  if (found !== null) return found;
  // A record number, or a dash used by others as a placeholder: fields common to all records connect nothing.
  const shared = own(first).filter((path) => lines.every(({ fields }) => (fields.get(path) ?? '') !== ''));
  const beside =
    shared.length === 0 ? null : apart(lines, (line) => own(line).filter((path) => !shared.includes(path)));
  return beside !== null && beside.length > 1 && beside.every(({ present }) => present.length > 0) ? beside : whole;
}

/** The parts without a common field, `null` if there is only one, or too many. @param own the fields that count */
function apart(lines: readonly FieldLine[], own: (line: FieldLine) => string[]): Variant[] | null {
  /** Each field with the representative of all fields that occur with it (union-find). */
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
    path:
      head === ''
        ? undefined
        : of
            .slice(0, 1)
            .flatMap(own)
            .find((path) => of.every((line) => own(line).includes(path))),
  }));
  const named = common.filter(({ of, path }) => path !== undefined && of.length >= MIN_LINES);
  if (named.length < 1 || common.length < 2 || common.length > MOST) return null;
  const rest = common.filter((one) => !named.includes(one)).flatMap(({ of }) => of);
  const variants = named.map(({ of, path }) => ({ lines: of, present: path === undefined ? [] : [path], absent: [] }));
  const absent = named.flatMap(({ path }) => path ?? []);
  return rest.length === 0 ? variants : [...variants, { lines: rest, present: [], absent }];
}
