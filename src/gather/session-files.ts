/** The session folder's files: walked once, links followed without loops, hidden folders skipped. */
import { readdirSync, realpathSync, statSync, type Dirent } from 'node:fs';
import { join } from 'node:path';
import { refused } from '../files/refused.js';
import { isWithin } from '../files/within.js';
import { counted, type Warning } from '../model/index.js';
import { isFitsName } from './fits/read-header-frames.js';

/** A file of the session. */
export interface SessionFile {
  /** Relative to the session folder, forward slashes. */
  readonly path: string;
  readonly sizeBytes: number;
}

/** Depth beyond which folders are not entered: no session is that deep, a loop of mounts is. */
const MAX_DEPTH = 32;
/** Placeholder in a name for bytes that are not UTF-8. */
const NOT_UTF_8 = '\ufffd';
/** More entries than this are no session: a link leads to a whole disk, or the folder is a disk. */
const MAX_ENTRIES = 500_000;

/**
 * Lists every regular file under the folder, sorted by path.
 *
 * @param skip absolute paths of folders to skip (such as the report's own output folder)
 * @param untrusted leave out what links lead to outside of the folder; otherwise it is read, and reported
 * @param most files and folders that are looked at
 * @throws Error when the folder itself is missing or is no folder
 */
export function listSessionFiles(
  root: string,
  skip: readonly string[] = [],
  untrusted = false,
  most = MAX_ENTRIES,
): { files: SessionFile[]; warnings: Warning[] } {
  const files: SessionFile[] = [];
  const warnings: Warning[] = [];
  const strays: string[] = [];
  const rings: string[] = [];
  const hidden: string[] = [];
  const seen = new Set<string>();
  let home = root;
  const skipped = new Set(skip.flatMap((path) => [path, realPathOf(path)]));

  let entriesLeft = most;
  const walk = (folder: string, inside: string, depth: number): void => {
    if (skipped.has(folder)) return;
    let real: string;
    let entries: Dirent[];
    try {
      real = realpathSync(folder);
      if (seen.has(real) || skipped.has(real)) return;
      seen.add(real);
      entries = readdirSync(folder, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1));
      if (depth === 0) home = real;
    } catch (error) {
      if (depth === 0) throw error;
      warnings.push(unreadable(inside, error));
      return;
    }
    for (const entry of entries) {
      if (entriesLeft-- <= 0) return;
      const { name } = entry;
      const path = join(folder, name);
      const within = inside === '' ? name : `${inside}/${name}`;
      if (name.startsWith('.')) {
        if (!entry.isDirectory() && isFitsName(name)) hidden.push(within);
        continue;
      }
      try {
        if (entry.isSymbolicLink()) {
          const end = realpathSync(path);
          if (end !== home && isWithin(end, home)) {
            rings.push(within);
            continue;
          }
          if (!isWithin(home, end)) {
            strays.push(within);
            if (untrusted) continue;
          }
        }
        const stat = statSync(path);
        if (stat.isDirectory()) {
          if (depth < MAX_DEPTH) walk(path, within, depth + 1);
        } else if (stat.isFile()) {
          files.push({ path: within, sizeBytes: stat.size });
        } else if (isFitsName(name)) warnings.push(noFile(within));
      } catch (error) {
        warnings.push(unreadable(within, error));
      }
    }
  };
  walk(root, '', 0);
  const more = entriesLeft < 0 ? [tooManyFiles(most, files.at(-1)?.path)] : [];
  return {
    files,
    warnings: [
      ...warnings,
      ...rings.map(ringLink),
      ...strayLinks(strays, untrusted),
      ...hiddenFrames(hidden),
      ...packedFiles(files),
      ...more,
    ],
  };
}

/** What frames and logs are packed into that is not looked into; gzip and tile compression are read. */
const PACKED = /\.(?:zip|7z|rar|tar|tgz|tar\.gz|xz|bz2|zst|lz4|z)$/i;

/** Frames in them would be silently missing. */
function packedFiles(files: readonly SessionFile[]): Warning[] {
  const packed = files.filter(({ path }) => PACKED.test(path));
  const [first] = packed;
  if (first === undefined) return [];
  const [more, was, them] = packed.length === 1 ? ['', 'was', 'it'] : [', …', 'were', 'them'];
  return [
    {
      code: 'packed-files',
      message:
        `${counted(packed.length, 'packed file')} (${first.path}${more}) ${was} not looked into; unpack ${them} if ` +
        'there are frames or logs inside (.gz and .fz are read as they are)',
      source: { file: first.path },
      count: packed.length,
    },
  ];
}

/** To read a pipe or a device may never end. */
function noFile(file: string): Warning {
  return {
    code: 'not-a-file',
    message: `${file} is a device or a pipe, not a file, and is left out; remove it, or put the frame itself there`,
    source: { file },
  };
}

/** Programs hide what they have not finished, or deleted. */
function hiddenFrames(files: readonly string[]): Warning[] {
  const [first] = files;
  if (first === undefined) return [];
  const [more, was, them] = files.length === 1 ? ['', 'was', 'it'] : [', …', 'were', 'them'];
  return [
    {
      code: 'hidden-frames',
      message:
        `${counted(files.length, 'hidden FITS file')} (${first}${more}) ${was} left out, as hidden files are; ` +
        `rename ${them} without the dot to have ${them} read`,
      source: { file: first },
      count: files.length,
    },
  ];
}

function strayLinks(links: readonly string[], untrusted: boolean): Warning[] {
  const [first] = links;
  if (first === undefined) return [];
  const one = links.length === 1;
  const what = one ? `the link ${first} leads` : `${links.length} links (${first}, …) lead`;
  return [
    {
      code: 'link-outside',
      message:
        `${what} out of the session folder and ${one ? 'was' : 'were'} ` +
        `${untrusted ? 'not followed' : 'followed; with --untrusted such links are left alone'}`,
      source: { file: first },
      count: links.length,
    },
  ];
}

/** Whoever follows it reads the whole disk, and this folder among it. */
function ringLink(file: string): Warning {
  return {
    code: 'link-outside',
    message: `the link ${file} leads to a folder that contains the session folder itself, and was not followed`,
    source: { file },
  };
}

function tooManyFiles(most: number, last = '.'): Warning {
  return {
    code: 'too-many-files',
    message:
      `the folder holds more than ${most} files; what comes after ${last} was not looked at. Name the ` +
      'folder of one night, and leave links to other disks alone with --untrusted',
    source: { file: last },
  };
}

function realPathOf(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return path;
  }
}

function unreadable(file: string, error: unknown): Warning {
  return {
    code: 'unreadable',
    message: file.includes(NOT_UTF_8)
      ? `${file} is left out: its name is not UTF-8, so that it cannot be opened; rename it`
      : `${file} is left out: it could not be read ${refused(error)}`,
    source: { file },
  };
}

/** Whether a file is called as logs are. */
export function isLogName(path: string): boolean {
  return /\.(jsonl|ndjson|json|xml|log|txt|csv|tsv|tab|dat)(\.gz)?$/i.test(path);
}
