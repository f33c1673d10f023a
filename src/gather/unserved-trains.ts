/**
 * Trains of the rig file that no frame belongs to: a slip in a glob must not make a train that imaged all night one
 * that did not.
 */
import type { TrainConfig } from '../config/index.js';
import { counted, type HeaderFrame, type Warning } from '../model/index.js';
import { wantedFrameFiles, type TrainFrame } from './assign-trains.js';

/** A session's FITS files, and what became of them. */
export interface FrameFiles {
  /** All names in the session folder. */
  readonly paths: readonly string[];
  /** Those whose headers were read. */
  readonly read: readonly HeaderFrame[];
  /** Those that were given to trains. */
  readonly placed: readonly TrainFrame[];
}

/** One warning per train without frames, and one for files that no train's globs name where every train has some. */
export function unservedWarnings(trains: readonly TrainConfig[], { paths, read, placed }: FrameFiles): Warning[] {
  const wanted = new Set(wantedFrameFiles(paths, trains));
  const unread = paths.filter((path) => !wanted.has(path));
  const served = new Set(placed.map(({ train }) => train));
  const taken = new Set(placed.map(({ file }) => file));
  const left = [...unread, ...read.filter(({ file }) => !taken.has(file)).map(({ file }) => file)];
  const unserved = trains.filter(({ id }) => !served.has(id));
  if (unserved.length > 0) return unserved.map((train) => withoutFrames(train, left));
  return unread.length === 0
    ? []
    : [
        {
          code: 'frame-files-unread',
          message:
            `${theyAre(unread)} named by no frames: of the rig file and ${isOne(unread) ? 'was' : 'were'} not read; ` +
            'extend them where they are frames of a train',
          source: { file: unread[0]! },
          count: unread.length,
        },
      ];
}

function withoutFrames({ id, frames, match }: TrainConfig, left: readonly string[]): Warning {
  const asked = [...frames, ...Object.entries(match).map(([keyword, value]) => `${keyword} = ${String(value)}`)].join(
    ', ',
  );
  const none = `no frame matches ${asked} (${id})`;
  return left.length === 0
    ? {
        code: 'frames-not-found',
        message: `${none}; if it imaged, check the path, relative to the session folder`,
        train: id,
      }
    : {
        code: 'train-without-frames',
        message:
          `${none}, while ${theyAre(left)} no train’s: this report cannot say anything reliable of ${id} until ` +
          'frames: and match: in the rig file find its files',
        source: { file: left[0]! },
        train: id,
        count: left.length,
      };
}

const isOne = (files: readonly string[]): boolean => files.length === 1;

/** `114 FITS files (asio/Ha 0001.fits, …) are`. */
function theyAre(files: readonly string[]): string {
  return `${counted(files.length, 'FITS file')} (${files[0]}${isOne(files) ? ') is' : ', …) are'}`;
}
