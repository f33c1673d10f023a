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

/** The state of the night: no light yet, still dark, the Sun above the limit, or the site unknown. */
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

/** The state of a night whose folder looks as it does, at an instant in UTC ms. */
export type StateOfNight = (seen: FolderLook, nowMs: number) => Promise<NightState>;

/**
 * Reports the state of the night, from the site in the rig file or headers and the darkness requested in the rig file.
 * The session is read again only if its files have changed.
 *
 * @throws ConfigError when the rig file cannot be used
 */
export function stateOfNight(root: string, options: Omit<GatherOptions, 'nowMs'>): StateOfNight {
  let known: { readonly signature: string; readonly isDark: IsDark } | null = null;
  return async ({ signature }, nowMs) => {
    if (known?.signature !== signature) known = { signature, isDark: await darknessOf(root, { ...options, nowMs }) };
    if (typeof known.isDark === 'string') return known.isDark;
    return known.isDark(nowMs) ? 'dark' : 'light';
  };
}

/** Whether it is dark at an instant, or why this is unknown. */
type IsDark = 'no-lights' | 'unknown-site' | ((nowMs: number) => boolean);

async function darknessOf(root: string, options: GatherOptions): Promise<IsDark> {
  const session = await gatherSession(root, options);
  if (activeInstants(session).length === 0) return 'no-lights';
  const { site, darkness } = session.rig;
  if (site === null) return 'unknown-site';
  const observer = makeSkyObserver(site);
  return (nowMs) => {
    const around = interval(nowMs - 60_000, nowMs + 60_000);
    return darkStretches(observer, around, darkness).some((span) => contains(span, nowMs));
  };
}
