import { groupBy } from '../../../../model/index.js';
import { isSubject } from '../lexicon/said.js';
import { plainWords } from '../lexicon/plain-words.js';
import { wordList } from '../lexicon/word-list.js';
import type { FieldLine } from './field-line.js';

/** Records of the same activities, and the fields that name them. */
export interface OfWork {
  readonly lines: readonly FieldLine[];
  readonly works: readonly string[];
}

const MAX_WORKS = 6;
/** Such fields name other activities, and what preceded or caused them. */
export const WHY = wordList(
  `why because cause reason after before for by wegen grund anlass nach fur motif raison pour apres motivo causa per
     dopo
     por tras reden voor na powod duvod pro po comment remark note`,
);

/**
 * Splits records that say only that something was done, by a field that names the activity: `moves` with `what: goto`
 * and `what: centre`.
 */
export function byWork(
  lines: readonly FieldLine[],
  telling: readonly string[],
  timePaths: readonly string[],
): OfWork[] {
  const [first] = lines;
  const whole = [{ lines, works: [] }];
  if (first === undefined || telling.some((path) => isSubject(first.fields.get(path) ?? ''))) return whole;
  const path = [...first.fields.keys()].find((one) => {
    if (telling.includes(one) || timePaths.includes(one) || WHY.test(plainWords(one))) return false;
    const values = new Set(lines.map(({ fields }) => fields.get(one) ?? ''));
    return values.size > 1 && values.size <= MAX_WORKS && [...values].every(isSubject);
  });
  if (path === undefined) return whole;
  return [...groupBy(lines, ({ fields }) => fields.get(path) ?? '').values()].map((own) => ({
    lines: own,
    works: [path],
  }));
}
