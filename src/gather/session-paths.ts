/**
 * Paths of a rig file as the session's files are listed: relative to the session folder, with forward slashes. On
 * Windows a user copies `D:\nights\2026-10-14\logs\*.log` or `\\host\share\…` out of a window; what lies in the session
 * folder is found by it.
 */
import nodePath, { type PlatformPath } from 'node:path';
import type { LogSelector, Rig } from '../config/index.js';

/**
 * A rig whose patterns and dialects are below the session folder wherever they can be; others stay as they are, match
 * nothing and are reported.
 *
 * @param root the session folder
 * @param paths the system's rules for paths
 */
export function sessionPaths(rig: Rig, root: string, paths: PlatformPath = nodePath): Rig {
  const below = (path: string): string => belowFolder(path, root, paths);
  const selector = (log: LogSelector): LogSelector => ({
    files: log.files.map(below),
    ...(log.dialect === undefined ? {} : { dialect: below(log.dialect) }),
  });
  return {
    ...rig,
    trains: rig.trains.map((train) => ({
      ...train,
      frames: train.frames.map(below),
      logs: train.logs.map(selector),
    })),
    ...(rig.guiding ? { guiding: { ...rig.guiding, logs: rig.guiding.logs.map(selector) } } : {}),
  };
}

/** The path below a folder, forward slashes. A pattern's stars are letters of a name here. */
function belowFolder(path: string, folder: string, paths: PlatformPath): string {
  const portable = (text: string): string => text.replaceAll('\\', '/');
  if (!paths.isAbsolute(path)) return portable(path);
  // Compares as the system does: on Windows upper and lower case are one, and both slashes.
  const way = paths.relative(paths.resolve(folder), path);
  return way === '' || way.startsWith('..') || paths.isAbsolute(way) ? portable(path) : portable(way);
}
