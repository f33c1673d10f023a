/**
 * All nights of an archive, summarised one after another, so that a thousand of them need no more memory than a few.
 */
import type { Counting, NightSummary, Warning } from '../../model/index.js';
import { sessionsOf } from '../read.js';
import { daysApart, mayShare } from './neighbours.js';
import type { FrameRecord, NightRecord } from '../schema.js';
import type { MergeSessions } from './add.js';
import { jsonFiles, readRecordFile } from './files.js';
import { inOneReference } from './one-reference.js';
import { RememberedNights, type Remembering } from './remembered.js';
import { mayBeSameSite } from './same-site.js';
import { sumAhead, type SumAheadOptions } from './sum-ahead.js';
import { standingAlone } from './standing-alone.js';
import { beginsOf, summedNight } from './sum-file.js';

/** The archive's nights, oldest first, and warnings about them. */
export interface ArchivedNights {
  readonly nights: readonly NightSummary[];
  readonly warnings: readonly Warning[];
}

/** How an archive is read. */
export interface ReadingOptions {
  readonly onProgress?: (done: number, total: number) => void;
  readonly counting?: Counting;
  /** Number of records above which threads are used, if not the default. */
  readonly thread?: Pick<SumAheadOptions, 'program' | 'fewest'>;
}

/** A night whose neighbours may still contain frames of it. */
interface Waiting {
  readonly file: string;
  /** Of the file before it was read. */
  readonly stamp: string | null;
  /** The first record found of it. */
  readonly record: NightRecord;
  /** Records of the same night and site. */
  readonly others: readonly NightRecord[];
  /** Frames of it that a neighbouring night counts. */
  readonly elsewhere: readonly FrameRecord[];
}

/**
 * Reads every record of an archive. Several files of one night and site are merged; a frame in the records of two
 * neighbouring nights (the site's zone was corrected between two reports, for example) counts in one of them.
 *
 * @param remembering where sums are kept between runs; every record is read when absent
 * @throws Error when the folder itself cannot be read
 */
export async function readArchivedNights(
  archive: string,
  merge: MergeSessions,
  { onProgress, counting = 'clock', thread }: ReadingOptions = {},
  remembering?: Remembering,
): Promise<ArchivedNights> {
  const warnings: Warning[] = [];
  const names = jsonFiles(archive);
  const memory = remembering && new RememberedNights(archive, counting, remembering);
  let done = 0;
  const proceed = (to: number): void => {
    if (to > done) onProgress?.((done = to), names.length);
  };
  const known = new Map(names.flatMap((file) => entry(file, memory?.of(file))));
  const unknown = names.filter((file) => !known.has(file));
  const stamps = new Map(unknown.map((file) => [file, memory?.stampOf(file) ?? null]));
  const onEach = (count: number): void => proceed(known.size + count);
  const ahead = await sumAhead(archive, unknown, { counting, onProgress: onEach, ...thread });
  const alone = standingAlone(names, new Map([...known, ...ahead]));
  for (const [file, night] of ahead) if (alone.has(file)) memory?.remember(file, stamps.get(file) ?? null, night);
  const summed = new Map([...alone].map(([file, night]) => [file, night.summed]));
  proceed(summed.size);
  const settle = async (waiting: Waiting): Promise<void> => {
    const { file, stamp, record, others, elsewhere } = waiting;
    const night = summedNight(file, record, await settled(waiting, merge), counting);
    summed.set(file, night.summed);
    if (others.length + elsewhere.length === 0) memory?.remember(file, stamp, night);
  };
  let waiting: Waiting[] = [];
  let looked = summed.size;
  for (const file of names) {
    if (summed.has(file)) continue;
    const stamp = memory?.stampOf(file) ?? null;
    const record = readRecordFile(archive, file, (w) => warnings.push(w));
    proceed(++looked);
    if (!record) continue;
    const past = waiting.filter((w) => daysApart(w.record.night, record.night) > 1);
    for (const night of past) await settle(night);
    waiting = placed(
      waiting.filter((w) => !past.includes(w)),
      { file, stamp, record, others: [], elsewhere: [] },
      (w) => warnings.push(w),
    );
  }
  for (const night of waiting) await settle(night);
  await memory?.save();
  const nights = names
    .flatMap((file) => summed.get(file) ?? [])
    .sort(({ night: a }, { night: b }) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
  return { nights: inOneReference(nights, (w) => warnings.push(w)), warnings };
}

/** The night's record; merged, if a single file has too little or too much. */
async function settled({ record, others, elsewhere }: Waiting, merge: MergeSessions): Promise<NightRecord> {
  if (others.length === 0 && elsewhere.length === 0) return record;
  return merge([record, ...others].flatMap(sessionsOf), { elsewhere, briefly: true });
}

/** The neighbouring nights with one more record: added to its own night, or without frames already counted. */
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
        `${shared} frame${shared === 1 ? '' : 's'} ${shared === 1 ? 'is' : 'are'} in both records, ` +
        `${other.file} and ${file}, and count${shared === 1 ? 's' : ''} once: the site or its time ` +
        'zone was set differently when they were made; report one of the two nights again',
      source: { file },
      count: shared,
    });
    // The record that knows its site is more reliable about its night.
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
  if (!mayShare(beginsOf(framesA), beginsOf(framesB))) return 0;
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

function without(night: Waiting, counted: Waiting): Waiting {
  return { ...night, elsewhere: [...night.elsewhere, ...framesOf(counted)] };
}

function entry<V>(file: string, value: V | undefined): [string, V][] {
  return value === undefined ? [] : [[file, value]];
}
