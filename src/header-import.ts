/**
 * Past nights from frames only: a tree of FITS files, read by header, becomes night records in the archive. Files
 * already read are not read again.
 */
import { statSync } from 'node:fs';
import { join } from 'node:path';
import { parseRig } from './config/index.js';
import { matchKeywords, type TrainFrame } from './gather/assign-trains.js';
import { isFitsName, readHeaderFrames } from './gather/fits/index.js';
import { INFERENCE_KEYWORDS } from './gather/infer-rig.js';
import { lightsBySite, pastLights, type SiteLights } from './gather/past-frames.js';
import { listSessionFiles } from './gather/session-files.js';
import { placeFrames, sessionOf } from './gather/session.js';
import { append, groupBy, type Warning } from './model/index.js';
import { mergeSessions } from './merge-sessions.js';
import { nightFrom } from './pipeline.js';
import {
  addSession,
  filesOfNight,
  forArchive,
  HeaderIndex,
  readRecordFile,
  sessionsOf,
  type Added,
  type FileStamp,
  type IndexedFile,
  type ReadingRules,
  type WriteFile,
} from './record/index.js';
import { nightOf, zoneOf } from './sky/index.js';

export interface ImportOptions {
  readonly nowMs: number;
  readonly version: string;
  /** A short name of the folder that does not reveal its location. */
  readonly session: string;
  /** A rig file; without one, trains and sites are worked out from the headers. */
  readonly rig?: { readonly name: string; readonly text: string };
  /** The folder is a stranger's: no link out of it is followed. */
  readonly untrusted?: boolean;
  /** Absolute folders to leave out: the archive itself. */
  readonly skip: readonly string[];
  readonly write: WriteFile;
  readonly onProgress?: (what: 'headers' | 'nights', done: number, total: number) => void;
}

/** The results of an import. */
export interface Imported {
  /** FITS files in the folder, and how many of their headers were read now. */
  readonly files: number;
  readonly read: number;
  /** Files of those that were known under another path. */
  readonly moved: number;
  /** Files that are copies of others. */
  readonly copies: number;
  readonly nights: readonly Added[];
  readonly warnings: readonly Warning[];
}

/** Headers read before they are written down: no more than these are read again after an import is broken off. */
const BATCH = 500;

/**
 * Imports a folder. Call it under the archive's lock.
 *
 * @throws ConfigError when the rig file cannot be used; Error when the folder cannot be read
 */
export async function importHeaders(archive: string, folder: string, options: ImportOptions): Promise<Imported> {
  const given = options.rig && parseRig(options.rig.name, options.rig.text);
  const rules: ReadingRules = {
    keep: [...new Set([...INFERENCE_KEYWORDS, ...matchKeywords(given?.rig.trains ?? [])])],
    extra: given?.rig.keywords ?? {},
    version: options.version,
  };
  const listing = listSessionFiles(folder, options.skip, options.untrusted);
  const stamps = listing.files.filter((f) => isFitsName(f.path)).flatMap(({ path }) => stampOf(folder, path));
  const index = new HeaderIndex(archive, options.session, rules);
  const fresh = await readNew(folder, stamps, index, rules, options);
  await index.keepOnly(new Set(stamps.map((s) => s.path)), options.write);

  const known = [...index.all()];
  const past = pastLights(
    known.flatMap(({ path, frame }) => (frame ? [{ ...frame, file: path }] : [])),
    options.nowMs,
  );
  const built: Built = { nights: [], warnings: [] };
  for (const group of lightsBySite(past.lights, given?.rig ?? null)) await addNights(archive, group, options, built);
  return {
    files: stamps.length,
    read: fresh.read,
    moved: fresh.moved,
    copies: past.copies,
    nights: built.nights,
    warnings: [
      ...(given?.warnings ?? []),
      ...listing.warnings,
      ...fresh.warnings,
      ...headerless(known),
      ...past.warnings,
      ...built.warnings,
    ],
  };
}

function stampOf(folder: string, path: string): FileStamp[] {
  const stat = statSync(join(folder, path), { throwIfNoEntry: false });
  return stat ? [{ path, sizeBytes: stat.size, changedMs: stat.mtimeMs }] : [];
}

/** Reads the headers of files that are new or have changed, and writes down batch by batch what was read. */
async function readNew(
  folder: string,
  stamps: readonly FileStamp[],
  index: HeaderIndex,
  rules: ReadingRules,
  options: ImportOptions,
) {
  const unread = stamps.filter((stamp) => !index.find(stamp));
  const present = new Set(stamps.map((s) => s.path));
  const gone = new Set([...index.all()].flatMap((f) => (f.frame && !present.has(f.path) ? [f.frame.headerHash] : [])));
  const warnings: Warning[] = [];
  let moved = 0;
  for (let from = 0; from < unread.length; from += BATCH) {
    const batch = unread.slice(from, from + BATCH);
    const headers = await readHeaderFrames(
      folder,
      batch.map((s) => s.path),
      {
        nowMs: options.nowMs,
        keep: rules.keep,
        extra: rules.extra,
        onProgress: (done) => options.onProgress?.('headers', from + done, unread.length),
      },
    );
    const frames = new Map(headers.frames.map((f) => [f.file, f]));
    index.add(batch.map((stamp): IndexedFile => ({ ...stamp, frame: frames.get(stamp.path) ?? null })));
    moved += headers.frames.filter((f) => gone.has(f.headerHash)).length;
    append(warnings, headers.warnings);
  }
  return { read: unread.length, moved, warnings: addUp(warnings) };
}

/** Warnings of one kind from several batches become one. */
function addUp(warnings: readonly Warning[]): Warning[] {
  return [...groupBy(warnings, (w) => w.code).values()].flatMap((same) => {
    const count = same.reduce((sum, w) => sum + (w.count ?? 1), 0);
    return same.slice(0, 1).map((first) => (same.length === 1 ? first : { ...first, count }));
  });
}

function headerless(known: readonly IndexedFile[]): Warning[] {
  const bad = known.filter((f) => f.frame === null);
  const [first] = bad;
  if (!first) return [];
  const which = bad.length === 1 ? `${first.path} has` : `${bad.length} files (${first.path}, …) have`;
  return [
    {
      code: 'no-header',
      message: `${which} no FITS header that can be read and ${bad.length === 1 ? 'is' : 'are'} left out`,
      source: { file: first.path },
      count: bad.length,
    },
  ];
}

interface Built {
  readonly nights: Added[];
  readonly warnings: Warning[];
}

/** Rebuilds the nights of one site for which the archive does not have exactly these frames, and adds them. */
async function addNights(
  archive: string,
  { rig, lights }: SiteLights,
  options: ImportOptions,
  built: Built,
): Promise<void> {
  const { session, version, write } = options;
  const placed = placeFrames(lights, rig);
  append(built.warnings, placed.warnings);
  // Over all of them, lest each night be cut by its own pauses.
  const { cutZone } = sessionOf(rig, placed);
  const zone = cutZone ?? zoneOf(rig.site);
  const nights = [...groupBy(placed.frames, (f) => (f.exposure ? nightOf(f.exposure.startMs, zone) : ''))].sort(
    ([a], [b]) => (a < b ? -1 : 1),
  );
  for (const [done, [date, frames]] of nights.entries()) {
    options.onProgress?.('nights', done + 1, nights.length);
    if (isArchived(archive, date, session, frames, built)) continue;
    // Without a rig file a train is of a night by its frames: a camera sold in spring idles on no night of autumn.
    const taking = new Set(frames.map((f) => f.train));
    const own = options.rig ? rig : { ...rig, trains: rig.trains.filter(({ id }) => taking.has(id)) };
    const night = await nightFrom({ ...sessionOf(own, { frames, inputs: [], warnings: [] }), cutZone }, date, {
      replay: null,
    });
    const record = forArchive(night, { session, report: null }, version);
    const added = await addSession(archive, record, write, mergeSessions);
    built.nights.push(added);
    append(built.warnings, added.warnings);
    // A long import must not keep the terminal from hearing a signal.
    await new Promise((resolve) => setImmediate(resolve));
  }
}

/** Whether the archive has this session's night with just these frames, or all of them from other sessions. */
function isArchived(
  archive: string,
  date: string,
  session: string,
  frames: readonly TrainFrame[],
  built: Built,
): boolean {
  const records = filesOfNight(archive, date).flatMap(
    (file) => readRecordFile(archive, file, (w) => built.warnings.push(w)) ?? [],
  );
  const sessions = records.flatMap(sessionsOf);
  const own = sessions.find((s) => s.archive?.session === session);
  if (!own) {
    const counted = new Set(sessions.flatMap((s) => s.frames.flatMap((f) => f.identity ?? [])));
    return frames.every((f) => counted.has(f.headerHash));
  }
  const key = (train: string, identity = ''): string => `${train} ${identity}`;
  const now = new Set(frames.map((f) => key(f.train, f.headerHash)));
  return own.frames.length === now.size && own.frames.every((f) => now.has(key(f.train, f.identity)));
}
