/**
 * Folders named on the command line: the session must exist, and nothing is ever written among the user's frames.
 */
import { readdirSync, statSync } from 'node:fs';
import { dirname, relative, resolve, sep } from 'node:path';
import { UsageError } from './exit-codes.js';

/**
 * The absolute path of a session folder.
 *
 * @throws UsageError when there is no such folder
 */
export function sessionFolder(path: string): string {
  const root = resolve(path);
  const stat = statSync(root, { throwIfNoEntry: false });
  if (!stat) throw new UsageError(`there is no folder ${path}; name the folder that holds the night's frames and logs`);
  if (!stat.isDirectory()) throw new UsageError(`${path} is a file; name the folder that holds the night's frames and logs`);
  return root;
}

/**
 * The absolute path of an output folder that is safe to write to.
 *
 * @param option the option that named it, for messages
 * @throws UsageError when it is the session folder itself, or lies in a folder with frames
 */
export function safeOutputFolder(path: string, session: string, option = '--out'): string {
  const out = resolve(path);
  if (statSync(out, { throwIfNoEntry: false })?.isFile()) throw new UsageError(`${option} ${path} is a file; name a folder`);
  if (out === session) throw new UsageError(`${option} must not be the session folder itself; name another folder, such as ${path}${sep}report`);
  for (let folder = out; isWithin(folder, session) && folder !== session; folder = dirname(folder)) {
    if (holdsFrames(folder)) throw new UsageError(`${option} ${path} lies among frames (${folder}); nothing is ever written there, name another folder`);
  }
  if (!isWithin(out, session) && holdsFrames(out)) {
    throw new UsageError(`${option} ${path} holds frames; nothing is ever written there, name another folder`);
  }
  return out;
}

function isWithin(path: string, folder: string): boolean {
  const way = relative(folder, path);
  return way === '' || (!way.startsWith('..') && !/^[a-z]:/i.test(way));
}

function holdsFrames(folder: string): boolean {
  try {
    return readdirSync(folder).some((name) => /\.(fits?|fts)(\.(gz|fz))?$|\.fz$/i.test(name));
  } catch {
    return false;
  }
}
