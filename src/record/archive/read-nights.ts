/**
 * All nights of an archive, summed up one after another, so that a thousand of them need no more room than a few.
 */
import type { Counting, NightSummary, Warning } from '../../model/index.js';
import { sessionsOf } from '../read.js';
import type { FrameRecord, NightRecord } from '../schema.js';
import type { MergeSessions } from './add.js';
import { jsonFiles, readRecordFile } from './files.js';
import { inOneReference, type Summed } from './one-reference.js';
import { RememberedNights, type RememberedNight, type Remembering } from './remembered.js';
import { mayBeSameSite } from './same-site.js';
import { summarise } from './summary.js';

type Begins = RememberedNight['begins'];

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
  /** Of the file before it was read. */
  readonly stamp: string | null;
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
 * @param remembering where sums are kept between runs; every record is read when absent
 * @throws Error when the folder itself cannot be read
 */
export async function readArchivedNights(
  archive: string,
  merge: MergeSessions,
  { onProgress, counting = 'clock' }: ReadingOptions = {},
  remembering?: Remembering,
): Promise<ArchivedNights> {
  const warnings: Warning[] = [];
  const names = jsonFiles(archive);
  const memory = remembering && new RememberedNights(archive, counting, remembering);
  const summed = memory ? standingAlone(names, memory) : new Map<string, Summed>();
  const settle = async (waiting: Waiting): Promise<void> => {
    const { file, stamp, others, elsewhere } = waiting;
    const record = { file, record: await settled(waiting, merge) };
    const sums = { night: summarise(record, counting), byClock: counting === 'clock' ? null : summarise(record) };
    summed.set(file, sums);
    if (others.length + elsewhere.length === 0) memory?.remember(file, stamp, remembered(waiting, sums));
  };
  let waiting: Waiting[] = [];
  let done = summed.size;
  if (done > 0) onProgress?.(done, names.length);
  for (const file of names) {
    if (summed.has(file)) continue;
    const stamp = memory?.stampOf(file) ?? null;
    const record = readRecordFile(archive, file, (w) => warnings.push(w));
    onProgress?.(++done, names.length);
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

/** Sums of the files whose neighbours are all remembered and cannot share a frame with them: they need no reading. */
function standingAlone(names: readonly string[], memory: RememberedNights): Map<string, Summed> {
  const known = names.map((file) => memory.of(file));
  const alone = new Map<string, Summed>();
  // Neighbours are looked for beside each other; files whose names lie about their nights are not.
  const dates = known.flatMap((one) => one?.night ?? []);
  if (dates.some((date, i) => date < (dates[i - 1] ?? ''))) return alone;
  for (const [i, night] of known.entries()) {
    const file = names[i];
    if (file === undefined || night === undefined) continue;
    const isApart = (step: 1 | -1): boolean => {
      for (let j = i + step; j >= 0 && j < known.length; j += step) {
        const other = known[j];
        if (other === undefined) return false;
        if (daysApart(night.night, other.night) > 1) return true;
        if (night.night === other.night && mayBeSameSite(night.site, other.site)) return false;
        if (mayShare(night.begins, other.begins)) return false;
      }
      return true;
    };
    if (isApart(1) && isApart(-1)) alone.set(file, night.summed);
  }
  return alone;
}

function remembered({ record: { night, site, frames } }: Waiting, summed: Summed): RememberedNight {
  const place = site && { latitude: site.latitude, longitude: site.longitude };
  return { night, site: place, begins: beginsOf(frames), summed };
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

/** A frame has one begin, whichever record it stands in: records of spans apart share none. */
function mayShare([firstA, lastA]: Begins, [firstB, lastB]: Begins): boolean {
  return firstA <= lastB && firstB <= lastA;
}

/** First and last begin; the record's instants sort as texts. */
function beginsOf(frames: readonly FrameRecord[]): Begins {
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
