/**
 * All nights of an archive, summed up one after another, so that a thousand of them need no more room than a few.
 */
import type { Counting, NightSummary, Warning } from '../../model/index.js';
import { sessionsOf } from '../read.js';
import type { FrameRecord, NightRecord } from '../schema.js';
import type { MergeSessions } from './add.js';
import { jsonFiles, readRecordFile } from './files.js';
import { inOneReference, type Summed } from './one-reference.js';
import { mayBeSameSite } from './same-site.js';
import { summarise } from './summary.js';

/** The archive's nights, oldest first, and what has to be said about them. */
export interface ArchivedNights {
  readonly nights: readonly NightSummary[];
  readonly warnings: readonly Warning[];
}

/** How an archive is read. */
export interface ReadingOptions {
  readonly onProgress?: (done: number, total: number) => void;
  readonly counting?: Counting;
}

/** A night whose neighbours may still bring frames of it. */
interface Waiting {
  readonly file: string;
  /** The first record that was found of it. */
  readonly record: NightRecord;
  /** Records of the same night and site. */
  readonly others: readonly NightRecord[];
  /** Frames of it that a neighbouring night counts. */
  readonly elsewhere: readonly FrameRecord[];
}

/**
 * Reads every record of an archive. Several files of one night and site are merged; a frame that stands in the records
 * of two neighbouring nights (the site's zone was set right between two reports, say) counts in one of them.
 *
 * @throws Error when the folder itself cannot be read
 */
export async function readArchivedNights(
  archive: string,
  merge: MergeSessions,
  { onProgress, counting = 'clock' }: ReadingOptions = {},
): Promise<ArchivedNights> {
  const warnings: Warning[] = [];
  const nights: Summed[] = [];
  const settle = async (waiting: Waiting): Promise<void> => {
    const record = { file: waiting.file, record: await settled(waiting, merge) };
    nights.push({ night: summarise(record, counting), byClock: counting === 'clock' ? null : summarise(record) });
  };
  let waiting: Waiting[] = [];
  const names = jsonFiles(archive);
  for (const [index, file] of names.entries()) {
    const record = readRecordFile(archive, file, (w) => warnings.push(w));
    onProgress?.(index + 1, names.length);
    if (!record) continue;
    const past = waiting.filter((w) => daysApart(w.record.night, record.night) > 1);
    for (const night of past) await settle(night);
    waiting = placed(
      waiting.filter((w) => !past.includes(w)),
      { file, record, others: [], elsewhere: [] },
      (w) => warnings.push(w),
    );
  }
  for (const night of waiting) await settle(night);
  nights.sort(({ night: a }, { night: b }) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
  return { nights: inOneReference(nights, (w) => warnings.push(w)), warnings };
}

/** The night's record; merged, where one file does not tell it all or tells too much. */
async function settled({ record, others, elsewhere }: Waiting, merge: MergeSessions): Promise<NightRecord> {
  if (others.length === 0 && elsewhere.length === 0) return record;
  return merge([record, ...others].flatMap(sessionsOf), { elsewhere, briefly: true });
}

/** The neighbouring nights with one more record: added to its own night, or without frames counted already. */
function placed(waiting: readonly Waiting[], found: Waiting, tell: (warning: Warning) => void): Waiting[] {
  const { file, record } = found;
  const home = waiting.find((w) => w.record.night === record.night && mayBeSameSite(w.record.site, record.site));
  if (home) return waiting.map((w) => (w === home ? { ...home, others: [...home.others, record] } : w));
  let added = found;
  const others = waiting.map((other): Waiting => {
    const shared = sharedFrames(other, added);
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
    if (other.record.site !== null || record.site === null) {
      added = without(added, other);
      return other;
    }
    return without(other, added);
  });
  return [...others, added];
}

function sharedFrames(a: Waiting, b: Waiting): number {
  const [framesA, framesB] = [framesOf(a), framesOf(b)];
  if (!mayShare(framesA, framesB)) return 0;
  const identities = new Set(framesA.flatMap((f) => f.identity ?? []));
  return new Set(framesB.flatMap((f) => (f.identity !== undefined && identities.has(f.identity) ? [f.identity] : [])))
    .size;
}

/** Frames that the night counts; one of two records may be there twice. */
function framesOf({ record, others, elsewhere }: Waiting): readonly FrameRecord[] {
  if (others.length === 0 && elsewhere.length === 0) return record.frames;
  const gone = new Set(elsewhere.flatMap((f) => f.identity ?? []));
  return [record, ...others].flatMap((r) => r.frames).filter((f) => f.identity === undefined || !gone.has(f.identity));
}

/** A frame has one begin, whichever record it stands in: records of spans apart share none. */
function mayShare(a: readonly FrameRecord[], b: readonly FrameRecord[]): boolean {
  const [firstA, lastA] = beginsOf(a);
  const [firstB, lastB] = beginsOf(b);
  return firstA <= lastB && firstB <= lastA;
}

/** First and last begin; the record's instants sort as texts. */
function beginsOf(frames: readonly FrameRecord[]): [first: string, last: string] {
  let [first, last] = ['~', ''];
  for (const { begin } of frames) {
    if (begin < first) first = begin;
    if (begin > last) last = begin;
  }
  return [first, last];
}

function without(night: Waiting, counted: Waiting): Waiting {
  return { ...night, elsewhere: [...night.elsewhere, ...framesOf(counted)] };
}

function daysApart(a: string, b: string): number {
  return Math.abs(Date.parse(`${a}T00:00:00Z`) - Date.parse(`${b}T00:00:00Z`)) / 86_400_000;
}
