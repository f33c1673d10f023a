/**
 * The gathering of frames: many FITS files, one after another, into frames and warnings.
 */
import { sep } from 'node:path';
import { steadyMs } from '../../files/steady-clock.js';
import { itemAt } from '../../model/collections.js';
import type { HeaderFrame } from '../../model/frame.js';
import type { Warning } from '../../model/warning.js';
import { headerFrame } from './frame-facts.js';
import { missingWhenInflated } from './gzip-length.js';
import { type ExtraKeywords, extraKeywordWarnings, keywordTable } from './keywords.js';
import type { HeaderNote } from './notes.js';
import { type AheadOptions, readAhead } from './read-ahead.js';
import { expectedBytes, type FitsHeader, readHeader } from './read-header.js';

const FITS_NAME = /\.(?:fits?|fts)(?:\.(?:gz|fz))?$|\.fz$/i;
/** Companion files that some file systems write beside each file; they hold no image. */
const COMPANION = /(?:^|[\\/])\._[^\\/]*$/;

/** How long reading may hold the event loop, ms: a progress bar moves and a signal is heard in between. */
const TURN_MS = 40;
/** How many files go between looks at the clock, which are not free. */
const FILES_PER_LOOK = 16;

/** Whether a path names a FITS file: .fits, .fit or .fts, plain or with .gz or .fz after it, in any case. */
export function isFitsName(path: string): boolean {
  return FITS_NAME.test(path) && !COMPANION.test(path);
}

export interface ReadFramesOptions {
  /** The present, UTC ms: frames dated later are reported. */
  readonly nowMs: number;
  /** Additional accepted keywords. */
  readonly extra?: ExtraKeywords;
  /** Keywords whose raw values the frames keep as `cards`, under the names given here. */
  readonly keep?: readonly string[];
  /** Called now and then, and at the end, with how many files are done. */
  readonly onProgress?: (done: number, total: number) => void;
  /** Minimum number of files for reading ahead in a thread, if not the default. */
  readonly ahead?: AheadOptions;
}

export interface HeaderFrames {
  /** In the order of the paths; files whose header could not be read are missing here and are among the warnings. */
  readonly frames: HeaderFrame[];
  readonly warnings: Warning[];
}

/**
 * Reads the headers of frames. Whatever a file is or holds, the others are still read.
 *
 * @param rootDir the session folder
 * @param relativePaths files relative to it
 */
export async function readHeaderFrames(
  rootDir: string,
  relativePaths: readonly string[],
  options: ReadFramesOptions,
): Promise<HeaderFrames> {
  const { nowMs, extra = {}, keep = [], onProgress } = options;
  const table = keywordTable(extra, keep);
  const frames: HeaderFrame[] = [];
  const notes = new NoteCollector();

  const files = sep === '/' ? relativePaths : relativePaths.map((path) => path.replaceAll(sep, '/'));
  const paths = files.map((file) => `${rootDir}/${file}`);
  const ahead = readAhead(paths, options.ahead);
  let turnEnds = steadyMs() + TURN_MS;
  let done = 0;
  try {
    for (const [i, file] of files.entries()) {
      const result = readHeader(itemAt(paths, i), table.wanted, ahead.of(i));
      if (result.ok) {
        const { unprovenBytes } = result.header;
        const header =
          unprovenBytes === undefined ? result.header : await proven(itemAt(paths, i), result.header, unprovenBytes);
        const { frame, notes: oddities } = headerFrame(header, { file, table, nowMs, keep });
        frames.push(frame);
        for (const note of header.notes) notes.add(file, note);
        for (const note of oddities) notes.add(file, note);
      } else {
        notes.addProblem(file, result.problem);
      }

      done++;
      if (done % FILES_PER_LOOK !== 0) continue;
      ahead.want(expectedBytes());
      if (steadyMs() < turnEnds) continue;
      onProgress?.(done, relativePaths.length);
      await new Promise((resolve) => setImmediate(resolve));
      turnEnds = steadyMs() + TURN_MS;
    }
  } finally {
    ahead.stop();
  }
  onProgress?.(done, relativePaths.length);
  return { frames, warnings: [...extraKeywordWarnings(extra), ...notes.warnings()] };
}

/** The header of a gzip file whose completeness its end left open, with anything missing in its notes. */
async function proven(path: string, header: FitsHeader, unprovenBytes: number): Promise<FitsHeader> {
  const missing = await missingWhenInflated(path, header.sizeBytes, unprovenBytes);
  return missing === null ? header : { ...header, notes: [...header.notes, missing] };
}

interface Group {
  readonly note: HeaderNote;
  readonly file: string;
  last: string;
  count: number;
}

/**
 * Gathers notes into warnings. The same oddity of the same card in many files becomes one warning that
 * names the first and the last file; a problem that cost a file's header is reported for every file.
 */
class NoteCollector {
  private readonly groups = new Map<string, Group>();

  /** Adds a note on a header that was read all the same. */
  add(file: string, note: HeaderNote): void {
    this.put(`${note.code} ${note.card ?? ''}`, file, note);
  }

  /** Adds the reason why a file's header could not be read. */
  addProblem(file: string, problem: HeaderNote): void {
    this.put(`${problem.code} ${file}`, file, problem);
  }

  /** The warnings, in the order in which each was first met. */
  warnings(): Warning[] {
    return [...this.groups.values()].map(toWarning);
  }

  private put(key: string, file: string, note: HeaderNote): void {
    const group = this.groups.get(key);
    if (group === undefined) {
      this.groups.set(key, { note, file, last: file, count: 1 });
    } else {
      group.last = file;
      group.count++;
    }
  }
}

function toWarning({ note, file, last, count }: Group): Warning {
  const others =
    count === 1 ? '' : count === 2 ? ` (and in ${last})` : ` (and in ${count - 1} more files, the last ${last})`;
  return {
    code: note.code,
    message: `${file}: ${note.what}${others}. ${note.remedy}`,
    source: note.card === undefined ? { file } : { file, card: note.card },
    ...(count > 1 && { count }),
  };
}
