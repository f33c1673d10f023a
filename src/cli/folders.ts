/**
 * Folders named on the command line: the session must exist, and nothing is ever written among the user's frames.
 */
import { readdirSync, realpathSync, statSync, type Dirent } from 'node:fs';
import nodePath, { dirname, join, resolve, sep, type PlatformPath } from 'node:path';
import { isWithin } from '../files/within.js';
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
  if (!stat.isDirectory())
    throw new UsageError(`${path} is a file; name the folder that holds the night's frames and logs`);
  return root;
}

/**
 * The absolute path of an output folder that is safe to write to.
 *
 * @param option the option that named it, for messages
 * @throws UsageError when it is the session folder itself, or lies in a folder with frames
 */
export function safeOutputFolder(path: string, session: string, option = '--out'): string {
  const named = resolve(path);
  const out = realPath(named);
  const home = realPath(session);
  if (statSync(out, { throwIfNoEntry: false })?.isFile())
    throw new UsageError(`${option} ${path} is a file; name a folder`);
  if (out === home)
    throw new UsageError(
      `${option} must not be the session folder itself; name another folder, such as ${path}${sep}report`,
    );
  for (const folder of foldersBetween(home, out)) {
    if (holdsFrames(folder, DEPTH))
      throw new UsageError(
        `${option} ${path} is in a folder of frames (${folder}); nothing is ever written there; name another folder`,
      );
  }
  if (holdsFrames(out, DEPTH)) {
    throw new UsageError(`${option} ${path} contains frames; nothing is ever written there; name another folder`);
  }
  if (isWithin(home, out) && holdsInputs(out)) {
    throw new UsageError(
      `${option} ${path} contains files of the session; a folder that is written to is not read, so name a ` +
        `separate one`,
    );
  }
  return named;
}

/**
 * The absolute path of a tree that frames are sorted into.
 *
 * @throws UsageError when it lies in the session or holds it, or holds frames that were not sorted there
 */
export function safeTree(path: string, session: string): string {
  const named = resolve(path);
  const tree = realPath(named);
  const home = realPath(session);
  if (statSync(tree, { throwIfNoEntry: false })?.isFile())
    throw new UsageError(`--into ${path} is a file; name a folder`);
  if (isWithin(home, tree) || isWithin(tree, home))
    throw new UsageError(
      `--into ${path} is inside the session folder or contains it: sorted frames would be read as frames of the ` +
        'night; name a folder outside',
    );
  for (let folder = tree; dirname(folder) !== folder; folder = dirname(folder)) {
    if (holdsFrames(folder))
      throw new UsageError(
        `--into ${path} is in a folder of frames (${folder}); nothing is ever written there; name another folder`,
      );
  }
  if (holdsFrames(tree, DEPTH) && !entries(tree).some(({ name }) => SORTED.test(name)))
    throw new UsageError(`--into ${path} contains frames that were not sorted there; name another folder`);
  return named;
}

/** The mark of a tree, and the manifests in it. */
const SORTED = /^sorted-\d{4}-\d{2}-\d{2}-[0-9a-f]{8}\.json$/;

/** The path with its links resolved, as far as it exists: a link must not lead among the frames unseen. */
export function realPath(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    const parent = dirname(path);
    return parent === path ? path : join(realPath(parent), nodePath.basename(path));
  }
}

/** The folders from `path` up to, and excluding, a folder that contains it; none if it does not. */
export function foldersBetween(holder: string, path: string, paths: PlatformPath = nodePath): string[] {
  if (!isWithin(holder, path, paths)) return [];
  const folders: string[] = [];
  // A root is its own parent, a share of another computer (\\host\share) too.
  for (let folder = path; paths.relative(holder, folder) !== ''; folder = paths.dirname(folder)) {
    folders.push(folder);
    if (paths.dirname(folder) === folder) break;
  }
  return folders;
}

/** How many folders below an output folder are looked into for frames. */
const DEPTH = 4;
const FRAME = /\.(fits?|fts)(\.(gz|fz))?$|\.fz$/i;
/** What nightledger itself writes into an output folder or an archive. */
const OUTPUT = [
  /^(report|progress)\.(html|pdf)$/,
  /\.json(\.damaged)?$/,
  /^(summary\.md|card\.png|frames\.csv|goals\.yaml)$/,
  /^\d{4}-\d{2}-\d{2}$/,
  /^\./,
];

function holdsFrames(folder: string, depth = 0): boolean {
  return entries(folder).some((entry) =>
    entry.isDirectory() ? depth > 0 && holdsFrames(join(folder, entry.name), depth - 1) : FRAME.test(entry.name),
  );
}

/** Whether a folder within the session holds anything that is not a report's. */
function holdsInputs(folder: string): boolean {
  return entries(folder).some((entry) => !OUTPUT.some((name) => name.test(entry.name)) && !isKeepLists(folder, entry));
}

/** The folder of lists that a report writes next to its page. */
function isKeepLists(folder: string, entry: Dirent): boolean {
  if (!entry.isDirectory() || entry.name !== 'frames') return false;
  return entries(join(folder, entry.name)).every(({ name }) => /\.(kept|doubtful|lost)\.txt$/.test(name));
}

/** A folder's entries; none if it does not exist or is not readable. */
function entries(folder: string): Dirent[] {
  try {
    return readdirSync(folder, { withFileTypes: true });
  } catch {
    return [];
  }
}
