/** What the command line asks to report: a session folder, or the record of a night. */
import { readdirSync, statSync } from 'node:fs';
import { basename, dirname, resolve } from 'node:path';
import { readTextFile } from '../files/read-text.js';
import { isRecordName, type Night, type Warning } from '../model/index.js';
import type { Context } from './context.js';
import { userRigFolder } from './user-folder.js';
import { UsageError } from './exit-codes.js';
import { safeOutputFolder, sessionFolder } from './folders.js';
import { starMeasuring, type StarsOption } from './star-measuring.js';
import { fitNursery, sweepUp } from './nursery.js';
import type { Messages } from './messages.js';

/** A session folder, or a record's file; absolute. */
export type NightSource =
  | { readonly kind: 'session'; readonly folder: string }
  | { readonly kind: 'record'; readonly file: string };

/** No night makes a record of more, and no rig file is longer; bytes. */
const MOST_RECORD_BYTES = 256_000_000;
const MOST_RIG_BYTES = 4_000_000;

/**
 * Determines what a path is.
 *
 * @throws UsageError when there is nothing there, or a file that is no JSON
 */
export function nightSource(path: string): NightSource {
  const file = resolve(path);
  const stat = statSync(file, { throwIfNoEntry: false });
  if (!stat?.isFile() || !file.toLowerCase().endsWith('.json')) return { kind: 'session', folder: sessionFolder(path) };
  return { kind: 'record', file };
}

/** Whether a folder is an archive's. */
export function holdsRecords(source: NightSource): boolean {
  return source.kind === 'session' && readdirSync(source.folder).some(isRecordName);
}

/**
 * Where a report may be written.
 *
 * @throws UsageError when it would be written among frames, or over the record it is made from
 */
export function outputFor(source: NightSource, out: string, option = '--out'): string {
  if (source.kind === 'session') return safeOutputFolder(out, source.folder, option);
  if (resolve(out) === dirname(source.file) && option === '--out')
    throw new UsageError(`${option} ${out} holds the record that is to be reported; name another folder`);
  // A record has no folder of frames that could be written into by mistake.
  return safeOutputFolder(out, source.file, option);
}

export interface ReadingOptions {
  /** Path of a rig file to use instead of the session's own, or to judge a record by. */
  readonly rig?: string;
  /** The session is a stranger's: nothing that leads out of its folder is followed. */
  readonly untrusted?: boolean;
  /** Absolute folders to leave out. */
  readonly skip?: readonly string[];
  /** How much of the frames' pixels is read. */
  readonly stars: StarsOption;
  /** Whether pictures are made of them. */
  readonly pictures?: boolean;
  /** `null` where a session's nights need not be replayed. */
  readonly replay?: null;
}

/** Reads the nights. @throws ConfigError, or Error when nothing can be read */
export async function nightsOf(
  source: NightSource,
  { rig, skip, stars, pictures = false, untrusted, replay }: ReadingOptions,
  context: Context,
  messages: Messages,
): Promise<{ readonly nights: readonly Night[]; readonly warnings: readonly Warning[] }> {
  const rigFile = rig === undefined ? undefined : resolve(rig);
  if (source.kind === 'session') {
    const { defaultCacheFolder, readNights } = await import('../pipeline.js');
    const measuring = starMeasuring(stars, defaultCacheFolder(context.env, process.platform), context, messages);
    try {
      const nights = await readNights(source.folder, {
        nowMs: context.nowMs,
        userRigs: userRigFolder(context.env),
        rigFile,
        skip,
        untrusted,
        onProgress: (done, total) => {
          fitNursery(total, done);
          messages.progress('reading headers', done, total);
        },
        stars: measuring.options && { ...measuring.options, pictures },
        replay,
        onStage: sweepUp,
      });
      return { nights, warnings: [] };
    } finally {
      measuring.end();
    }
  }
  const { nightOfRecord } = await import('../again.js');
  const rigText =
    rigFile === undefined
      ? undefined
      : { name: basename(rigFile), text: readTextFile(rigFile, { maxBytes: MOST_RIG_BYTES }) };
  try {
    const { night, warnings } = await nightOfRecord(
      readTextFile(source.file, { maxBytes: MOST_RECORD_BYTES }),
      rigText,
    );
    return { nights: [night], warnings };
  } catch (error) {
    if (error instanceof Error && error.constructor === Error && !('code' in error))
      throw new Error(`${basename(source.file)}: ${error.message}`);
    throw error;
  }
}
