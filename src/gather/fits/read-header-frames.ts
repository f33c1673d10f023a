/**
 * The gathering of frames: many FITS files, one after another, into frames and warnings.
 */
import { sep } from 'node:path';
import type { HeaderFrame } from '../../model/frame.js';
import type { Warning } from '../../model/warning.js';
import { headerFrame } from './frame-facts.js';
import { type ExtraKeywords, keywordTable, MEANINGS, unknownMeanings } from './keywords.js';
import { NoteCollector } from './notes.js';
import { readHeader } from './read-header.js';

/** How long reading may hold the event loop, ms: a progress bar moves and a signal is heard in between. */
const TURN_MS = 40;

export interface ReadFramesOptions {
  /** The present, UTC ms: frames dated later are told. */
  readonly nowMs: number;
  /** Keywords to accept besides the usual ones. */
  readonly extra?: ExtraKeywords;
  /** Keywords whose raw values the frames keep as `cards`, under the names given here. */
  readonly keep?: readonly string[];
  /** Called now and then, and at the end, with how many files are done. */
  readonly onProgress?: (done: number, total: number) => void;
}

export interface HeaderFrames {
  /** In the order of the paths; files whose header could not be read are missing here and stand among the warnings. */
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

  let turnEnds = performance.now() + TURN_MS;
  let done = 0;
  for (const relativePath of relativePaths) {
    const file = sep === '/' ? relativePath : relativePath.replaceAll(sep, '/');
    const result = readHeader(`${rootDir}/${file}`, table.wanted);
    if (result.ok) {
      const { frame, notes: oddities } = headerFrame(result.header, { file, table, nowMs, keep });
      frames.push(frame);
      for (const note of result.header.notes) notes.add(file, note);
      for (const note of oddities) notes.add(file, note);
    } else {
      notes.addProblem(file, result.problem);
    }

    done++;
    if (performance.now() >= turnEnds) {
      onProgress?.(done, relativePaths.length);
      await new Promise((resolve) => setImmediate(resolve));
      turnEnds = performance.now() + TURN_MS;
    }
  }
  onProgress?.(done, relativePaths.length);
  return { frames, warnings: [...unknownMeanings(extra).map(unknownMeaning), ...notes.warnings()] };
}

function unknownMeaning(key: string): Warning {
  return {
    code: 'unknown-meaning',
    message: `'${key}' among the extra header keywords is no meaning that nightledger knows; write one of ${MEANINGS.join(', ')}.`,
  };
}
