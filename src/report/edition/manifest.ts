/** The manifest of an output folder: which of its files are nightledger's, and which edition they belong to. */
import { lstatSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { readTextFile } from '../../files/read-text.js';
import { FORMATS } from '../formats/index.js';

/** The manifest's name in the folder. */
export const MANIFEST = '.nightledger.json';
const SCHEMA = 'nightledger/edition/1';
const MAX_BYTES = 4_000_000;

/** The kind of an edition: reports of nights, or the progress of an archive. */
export type EditionKind = 'night' | 'progress' | 'plan';

/** The files that were written together, and their content. */
export interface Manifest {
  readonly kind: EditionKind;
  /** The content of the edition, in words: the nights' dates, for example. */
  readonly of: string;
  /** SHA-256 (hex) of each file, by its path relative to the folder, forward slashes. */
  readonly files: ReadonlyMap<string, string>;
}

/** Names of the files that an edition may hold, in the folder itself or in a night's subfolder. */
const OWN_NAMES: ReadonlySet<string> = new Set([
  ...['report.html', 'report.pdf', 'night.json', 'progress.html', 'progress.pdf', 'progress.json'],
  ...['plan.html', 'plan.pdf', 'plan.json', 'plan.txt'],
  ...FORMATS.map(({ id, extension }) => `${id}.${extension}`),
]);
const KEEP_LIST = /^frames\/[^/]+\.(?:kept|doubtful|lost)\.txt$/;
const NIGHT_FOLDER = /^\d{4}-\d{2}-\d{2}\//;

/**
 * Whether a path stays within the folder on every system, and has one of our names: a manifest or journal that names
 * others was written by somebody who wants them removed.
 *
 * @param path relative, forward slashes
 */
export function isEditionPath(path: string): boolean {
  const parts = path.split('/');
  const own = path.replace(NIGHT_FOLDER, '');
  return (
    path.length <= 400 &&
    (OWN_NAMES.has(own) || KEEP_LIST.test(own)) &&
    parts.every((part) => part !== '' && !part.startsWith('.') && !/[\\:*?"<>|\p{Cc}]|[. ]$/u.test(part))
  );
}

/** Whether a file's path leads through a link out of the folder, possibly to frames, or through another file. */
export function leavesFolder(folder: string, path: string): boolean {
  for (let parent = dirname(path); parent !== '.'; parent = dirname(parent)) {
    const stat = lstatSync(join(folder, parent), { throwIfNoEntry: false });
    if (stat && !stat.isDirectory()) return true;
  }
  return false;
}

/** The text of a manifest. */
export function manifestText({ kind, of, files }: Manifest): string {
  return `${JSON.stringify({ schema: SCHEMA, kind, of, files: Object.fromEntries(files) }, null, 1)}\n`;
}

/** The manifest of a folder; `null` if there is none, or it is not ours. */
export function readManifest(folder: string): Manifest | null {
  const path = join(folder, MANIFEST);
  if (!lstatSync(path, { throwIfNoEntry: false })?.isFile()) return null;
  try {
    const value: unknown = JSON.parse(readTextFile(path, { maxBytes: MAX_BYTES }));
    if (typeof value !== 'object' || value === null || !('schema' in value) || value.schema !== SCHEMA) return null;
    const asked = 'kind' in value ? value.kind : null;
    const kind = asked === 'progress' || asked === 'plan' ? asked : 'night';
    const of = 'of' in value && typeof value.of === 'string' ? value.of : '';
    const files = 'files' in value && typeof value.files === 'object' && value.files !== null ? value.files : {};
    return {
      kind,
      of,
      files: new Map(
        Object.entries(files).flatMap(([file, hash]: [string, unknown]) =>
          typeof hash === 'string' && isEditionPath(file) ? [[file, hash] as const] : [],
        ),
      ),
    };
  } catch {
    return null;
  }
}
