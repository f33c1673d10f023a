import { groupBy } from '../../../../model/index.js';
import { isTelling, saysMotion } from '../lexicon/said.js';
import type { FieldLine } from './field-line.js';

/** Records of one kind that name their time alike. */
export interface Timed {
  readonly lines: readonly FieldLine[];
  /** The name of their time, where others of the kind name it otherwise. */
  readonly timeNamed: string | null;
}

/**
 * Takes records apart that say the same but for what they call their time: under `guiding` one has `switched on
 * 21:03:10`, the next `paused 22:40:51`.
 */
export function byTimeName(lines: readonly FieldLine[], timePaths: readonly string[]): Timed[] {
  const named = groupBy(lines, ({ fields }) => timePaths.find((path) => (fields.get(path) ?? '') !== '') ?? '');
  const isSaid = [...named.keys()].every((path) => saysMotion(path) || isTelling(path));
  if (named.size < 2 || !isSaid) return [{ lines, timeNamed: null }];
  return [...named].map(([path, own]) => ({ lines: own, timeNamed: path }));
}
