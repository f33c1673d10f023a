/**
 * All nights of an archive, summed up one after another, so that a thousand of them need no more room than a few.
 */
import type { Counting, NightSummary, Warning } from '../../model/index.js';
import { FrameBook, mergeSessions, withFrames } from '../merge/index.js';
import { sessionsOf } from '../read.js';
import type { NightRecord } from '../schema.js';
import { jsonFiles, readRecordFile, type RecordFile } from './files.js';
import { mayBeSameSite } from './same-site.js';
import { summarise } from './summary.js';

/** The archive's nights, oldest first, and what has to be said about them. */
export interface ArchivedNights {
  readonly nights: readonly NightSummary[];
  readonly warnings: readonly Warning[];
}

/**
 * Reads every record of an archive. Several files of one night and site are merged; a frame that stands in the records
 * of two neighbouring nights (the site's zone was set right between two reports, say) counts in one of them.
 *
 * @throws Error when the folder itself cannot be read
 */
export function readArchivedNights(
  archive: string,
  onProgress?: (done: number, total: number) => void,
  counting: Counting = 'clock',
): ArchivedNights {
  const summed = (record: RecordFile): Summed => ({
    night: summarise(record, counting),
    byClock: counting === 'clock' ? null : summarise(record),
  });
  const warnings: Warning[] = [];
  const nights: Summed[] = [];
  let waiting: RecordFile[] = [];
  const names = jsonFiles(archive);
  names.forEach((file, index) => {
    const record = readRecordFile(archive, file, (w) => warnings.push(w));
    onProgress?.(index + 1, names.length);
    if (!record) return;
    const settled = waiting.filter((w) => daysApart(w.record.night, record.night) > 1);
    nights.push(...settled.map(summed));
    waiting = placed(
      waiting.filter((w) => !settled.includes(w)),
      { file, record },
      (w) => warnings.push(w),
    );
  });
  nights.push(...waiting.map(summed));
  nights.sort(({ night: a }, { night: b }) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
  return { nights: inOneReference(nights, (w) => warnings.push(w)), warnings };
}

/** A night as it is counted, and by the clock where that is another count. */
interface Summed {
  readonly night: NightSummary;
  readonly byClock: NightSummary | null;
}

/** Effective hours are counted in the reference of the latest night that has one; nights in another, by the clock. */
function inOneReference(nights: readonly Summed[], tell: (warning: Warning) => void): NightSummary[] {
  const reference = nights.findLast(({ night }) => night.effectiveReference != null)?.night.effectiveReference;
  const differs = ({ night: { effectiveReference: own } }: Summed): boolean =>
    own != null &&
    reference != null &&
    (own.subSeconds !== reference.subSeconds || own.darkSkyMagArcsec2 !== reference.darkSkyMagArcsec2);
  const others = nights.filter((one) => one.byClock !== null && differs(one));
  const [first] = others;
  if (first && reference)
    tell({
      code: 'effective-reference',
      message:
        `${others.length} night${others.length === 1 ? '' : 's'} count by the clock: their effective hours are not of ` +
        `subs of ${reference.subSeconds} s under a zenith sky of ${reference.darkSkyMagArcsec2} mag per square ` +
        'arcsecond, as those of the latest night are; report them again with one referenceSub and darkSky',
      source: { file: first.night.file },
      count: others.length,
    });
  return nights.map((one) =>
    one.byClock !== null && differs(one)
      ? { ...one.byClock, keptWithoutEffective: one.byClock.totals.reduce((all, t) => all + t.frames.kept, 0) }
      : one.night,
  );
}

/** The neighbouring nights with one more record: merged into its own night, or added without frames counted already. */
function placed(
  waiting: readonly RecordFile[],
  { file, record }: RecordFile,
  tell: (warning: Warning) => void,
): RecordFile[] {
  const home = waiting.find((w) => w.record.night === record.night && mayBeSameSite(w.record.site, record.site));
  if (home) {
    const merged = { file: home.file, record: mergeSessions([...sessionsOf(home.record), ...sessionsOf(record)]) };
    return waiting.map((w) => (w === home ? merged : w));
  }
  let added = record;
  const others = waiting.map((other): RecordFile => {
    const shared = sharedFrames(other.record, added);
    if (shared === 0) return other;
    tell({
      code: 'frames-of-two-nights',
      message:
        `${shared} frame${shared === 1 ? '' : 's'} stand${shared === 1 ? 's' : ''} in the records ` +
        `${other.file} and ${file}, and count${shared === 1 ? 's' : ''} once: the site or its time ` +
        'zone was set differently when they were made; report one of the two nights again',
      source: { file },
      count: shared,
    });
    // The record that knows where it was made knows better which night it is.
    if (other.record.site !== null || added.site === null) {
      added = without(added, other.record);
      return other;
    }
    return { file: other.file, record: without(other.record, added) };
  });
  return [...others, { file, record: added }];
}

function sharedFrames(a: NightRecord, b: NightRecord): number {
  if (!mayShare(a, b)) return 0;
  const identities = new Set(a.frames.flatMap((f) => f.identity ?? []));
  return b.frames.filter((f) => f.identity !== undefined && identities.has(f.identity)).length;
}

/** A frame has one begin, whichever record it stands in: records of spans apart share none. */
function mayShare({ frames: a }: NightRecord, { frames: b }: NightRecord): boolean {
  const [firstA, lastA] = beginsOf(a);
  const [firstB, lastB] = beginsOf(b);
  return firstA <= lastB && firstB <= lastA;
}

/** First and last begin; the record's instants sort as texts. */
function beginsOf(frames: NightRecord['frames']): [first: string, last: string] {
  let [first, last] = ['~', ''];
  for (const { begin } of frames) {
    if (begin < first) first = begin;
    if (begin > last) last = begin;
  }
  return [first, last];
}

function without(record: NightRecord, counted: NightRecord): NightRecord {
  const book = new FrameBook();
  book.add(counted.frames);
  return withFrames(
    record,
    record.frames.filter((f) => !book.has(f)),
  );
}

function daysApart(a: string, b: string): number {
  return Math.abs(Date.parse(`${a}T00:00:00Z`) - Date.parse(`${b}T00:00:00Z`)) / 86_400_000;
}
