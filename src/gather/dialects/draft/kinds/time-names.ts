import { groupBy } from '../../../../model/index.js';
import { isTelling, saysMotion } from '../lexicon/said.js';
import type { FieldLine } from './field-line.js';

/** Minimum number of records of one kind with the same time field. */
export interface Timed {
  readonly lines: readonly FieldLine[];
  /** The name of their time field, if others of the kind use another. */
  readonly timeNamed: string | null;
}

/**
 * Splits records with the same wording by the name of their time field: under `guiding` one has `switched on 21:03:10`,
 * the next `paused 22:40:51`.
 */
export function byTimeName(lines: readonly FieldLine[], timePaths: readonly string[]): Timed[] {
  const named = groupBy(lines, ({ fields }) => timePaths.find((path) => (fields.get(path) ?? '') !== '') ?? '');
  const isSaid = [...named.keys()].every((path) => saysMotion(path) || isTelling(path));
  if (named.size < 2 || !isSaid) return [{ lines, timeNamed: null }];
  return [...named].map(([path, own]) => ({ lines: own, timeNamed: path }));
}
