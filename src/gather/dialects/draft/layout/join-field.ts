import { JoinedRecords } from '../../records/joined-records.js';
import { isFilterName, isFrameFile, isNumber } from '../kinds/values.js';
import { isTelling } from '../lexicon/said.js';

/** Minimum number of records with the number, of different numbers, and of records per number. */
const HAVE_IT = 0.6;
const MIN_NUMBERS = 8;
const TO_A_NUMBER = { from: 1.5, to: 12 } as const;
/** Minimum fraction of records without the subject field, among those with the number. */
const LACK = 0.3;
/** Minimum number of different values of that field. */
const SUBJECTS = { from: 2, to: 30 } as const;

type Fields = ReadonlyMap<string, string>;

/** The field with the number, those with the subject, and the records per number. */
export interface Join {
  readonly path: string;
  readonly subjects: readonly string[];
  readonly toANumber: number;
}

/** With this many records per number, the first queues a job, and the others report on it. */
const ORDERS = 2.5;

/**
 * The field with a number shared by records of which only the first names the subject: `n=0201 task=focus`, then
 * `n=0201 state=done`. `null` if there is none.
 */
export function joinField(rows: readonly Fields[], timePaths: readonly string[]): Join | null {
  const paths = new Set(rows.slice(0, 2000).flatMap((row) => [...row.keys()]));
  for (const path of paths) {
    if (timePaths.includes(path)) continue;
    const having = rows.filter((row) => row.has(path));
    if (having.length < HAVE_IT * rows.length) continue;
    const firsts = new Map<string, Fields>();
    const later: { first: Fields; row: Fields }[] = [];
    for (const row of having) {
      const key = row.get(path) ?? '';
      const first = firsts.get(key);
      if (first === undefined) firsts.set(key, row);
      else later.push({ first, row });
    }
    const toANumber = having.length / Math.max(1, firsts.size);
    const areCodes = [...firsts.keys()].every((key) => /^[\p{L}_#-]{0,8}\d{1,8}$/u.test(key));
    if (firsts.size < MIN_NUMBERS || !areCodes || toANumber < TO_A_NUMBER.from || toANumber > TO_A_NUMBER.to) continue;
    const gained = new Map<string, number>();
    for (const { first, row } of later)
      for (const one of first.keys()) if (!row.has(one)) gained.set(one, (gained.get(one) ?? 0) + 1);
    const subjects = [...gained].filter(
      ([one, count]) =>
        count >= LACK * having.length && isSubject([...firsts.values()].flatMap((row) => row.get(one) ?? [])),
    );
    if (subjects.length > 0) return { path, subjects: subjects.map(([one]) => one), toANumber };
  }
  return null;
}

/** Few words that name a subject: no filters, files or numbers. */
function isSubject(values: readonly string[]): boolean {
  const different = [...new Set(values)];
  if (different.length < SUBJECTS.from || different.length > SUBJECTS.to) return false;
  if (different.some((value) => isNumber(value) || isFilterName(value) || isFrameFile(value))) return false;
  return different.filter(isTelling).length >= 2;
}

/**
 * The records as used for kinds: the second one gets everything that the first says, later ones only the subject, since
 * planned seconds belong to the begin of a span. A queued job is not an event: `null`.
 */
export function joined(rows: readonly Fields[], { path, subjects, toANumber }: Join): (Fields | null)[] {
  const records = new JoinedRecords(path);
  const seen = new Map<string, number>();
  return rows.map((row) => {
    const key = row.get(path);
    const whole = records.take(row);
    if (key === undefined || whole === row) {
      if (key === undefined) return row;
      seen.set(key, 0);
      return toANumber >= ORDERS ? null : row;
    }
    const count = (seen.get(key) ?? 0) + 1;
    seen.set(key, count);
    return count === 1 ? whole : new Map([...whole].filter(([one]) => row.has(one) || subjects.includes(one)));
  });
}
