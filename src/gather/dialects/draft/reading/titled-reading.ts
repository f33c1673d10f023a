import { flattenRecord } from '../../records/flatten-record.js';
import { joinedBy } from '../layout/record-groups.js';
import type { HeadLine } from '../time/base-lines.js';
import { guessStamp } from '../time/stamp-guess.js';
import { stampsIn } from '../time/stamp-shapes.js';
import { newStamp, StampPattern } from '../../time/stamp.js';
import { fieldReading, type Row } from './field-reading.js';
import type { Reading } from './reading.js';

/** Titles that blocks may begin with. */
const STARTS = [String.raw`^\s*\[[^\]]+\]\s*$`, String.raw`^\S`] as const;
const MIN_BLOCKS = 10;
/** Blocks that state a time in a field of its own, of all. */
const TIMED = 0.7;
/** Blocks whose title has no time in it. */
const PLAIN_TITLES = 0.9;
/** Lines that belong to a block, below its title. */
const BELOW = 0.5;
const MOST_LINES = 40;
/** Blocks that the chosen fields give a time. */
const COVERED = 0.97;
const DAY_MS = 86_400_000;

/**
 * Blocks under titles, `[frame 12]`, whose fields state the times: `begin = …`, `end = …`, or `at = …`. `null` where the
 * log has none.
 */
export function titledReading(
  lines: readonly HeadLine[],
  hasBase: boolean,
  stated: readonly number[],
  name: string,
): Reading | null {
  for (const start of STARTS) {
    const begins = new RegExp(start, 'u');
    const below = lines.filter(({ text }) => !begins.test(text)).length;
    if (below < BELOW * lines.length) continue;
    const entries = joinedBy(lines, start);
    const rows = entries.flatMap(({ text, number }): Row[] => {
      const fields = text.split('\n').length > MOST_LINES ? null : flattenRecord('titled', text);
      return fields === null ? [] : [{ fields, line: number, text }];
    });
    const plain = rows.filter(({ text }) => !hasTime(text.split('\n')[0] ?? ''));
    if (rows.length < MIN_BLOCKS || plain.length < PLAIN_TITLES * rows.length) continue;
    const times = rows.map(
      ({ fields }) => new Map([...fields].filter(([path, value]) => path !== 'title' && isTime(value))),
    );
    if (times.filter(({ size }) => size > 0).length < TIMED * rows.length) continue;
    const paths = firstFields(times);
    const texts = times.flatMap((own) => firstOf(own, paths) ?? []);
    const stamp = guessStamp(texts, hasBase, stated);
    if (stamp === null || stamp.coverage < TIMED) continue;
    return fieldReading(
      entries,
      { kind: 'records', form: 'titled', start },
      rows,
      { paths, stamp, isFirst: true },
      hasBase,
      name,
    );
  }
  return null;
}

function isTime(value: string): boolean {
  return stampsIn(value).some(
    ({ pattern, start, end }) =>
      start === 0 && end === value.length && /\{(?:night-)?hour|\{epoch|\{julian/.test(pattern),
  );
}

function hasTime(text: string): boolean {
  return stampsIn(text).some(({ pattern }) => pattern.includes('{second}'));
}

/** The first of the fields that a record has. */
function firstOf(fields: ReadonlyMap<string, string>, paths: readonly string[]): string | undefined {
  return paths.map((path) => fields.get(path)).find((value) => value !== undefined);
}

/** The fields that state when things began, as few as give nearly every block a time: of two in a block the earlier. */
function firstFields(times: readonly ReadonlyMap<string, string>[]): string[] {
  const counts = new Map<string, number>();
  const later = new Map<string, number>();
  for (const own of times) {
    const read = [...own].map(([path, value]) => ({ path, ms: msOf(value) }));
    const earliest = Math.min(...read.map(({ ms }) => ms));
    for (const { path, ms } of read) {
      counts.set(path, (counts.get(path) ?? 0) + 1);
      // Past midnight a time of day is the earlier one.
      if (ms > earliest && ms - earliest < DAY_MS / 2) later.set(path, (later.get(path) ?? 0) + 1);
    }
  }
  const early = [...counts].sort(
    ([a, countA], [b, countB]) => (later.get(a) ?? 0) / countA - (later.get(b) ?? 0) / countB || countB - countA,
  );
  const chosen: string[] = [];
  const all = times.filter(({ size }) => size > 0);
  for (const [path] of early) {
    if (all.filter((own) => firstOf(own, chosen) !== undefined).length >= COVERED * all.length) break;
    chosen.push(path);
  }
  return chosen;
}

function msOf(text: string): number {
  const [found] = stampsIn(text).filter(({ start, pattern }) => start === 0 && !/\{[abc]\}/.test(pattern));
  if (found === undefined) return NaN;
  const bytes = Buffer.from(text);
  const stamp = newStamp();
  return new StampPattern(found.pattern).readAt(bytes, 0, bytes.length, stamp) ? stamp.ms : NaN;
}
