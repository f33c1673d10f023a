/**
 * Whether a night is over: what changes in a session folder, and whether the Sun is up at its site.
 */
import { statSync } from 'node:fs';
import { join } from 'node:path';
import { activeInstants, gatherSession, sessionFiles, type GatherOptions } from './gather/index.js';
import { contains, interval } from './model/index.js';
import { darkStretches, makeSkyObserver } from './sky/index.js';

/** The folder's files at one look: two looks are alike when nothing was added, grew or changed. */
export interface FolderLook {
  readonly files: number;
  readonly signature: string;
  /** When the newest of them was written, UTC ms; `null` for an empty folder. */
  readonly newestMs: number | null;
}

/** What the night has come to: no light yet, dark still, the Sun above the limit, or the site unknown. */
export type NightState = 'no-lights' | 'dark' | 'light' | 'unknown-site';

/** Looks at a session folder's files, their sizes and times. @throws Error when the folder cannot be read */
export function lookAtFolder(root: string, { skip, untrusted }: Pick<GatherOptions, 'skip' | 'untrusted'>): FolderLook {
  const seen = sessionFiles(root, skip, untrusted).files.map(({ path, sizeBytes }) => {
    const writtenMs = statSync(join(root, path), { throwIfNoEntry: false })?.mtimeMs ?? 0;
    return { path, sizeBytes, writtenMs };
  });
  return {
    files: seen.length,
    signature: JSON.stringify(seen.map(({ path, sizeBytes, writtenMs }) => [path, sizeBytes, writtenMs])),
    newestMs: seen.length === 0 ? null : seen.reduce((newest, { writtenMs }) => Math.max(newest, writtenMs), 0),
  };
}

/**
 * Says how far the night is, by the site of the rig file or of the headers and the darkness the rig file asks for.
 *
 * @throws ConfigError when the rig file cannot be used
 */
export async function nightState(root: string, options: GatherOptions): Promise<NightState> {
  const session = await gatherSession(root, options);
  if (activeInstants(session).length === 0) return 'no-lights';
  const { site, darkness } = session.rig;
  if (site === null) return 'unknown-site';
  const { nowMs } = options;
  const around = interval(nowMs - 60_000, nowMs + 60_000);
  const dark = darkStretches(makeSkyObserver(site), around, darkness).some((span) => contains(span, nowMs));
  return dark ? 'dark' : 'light';
}
