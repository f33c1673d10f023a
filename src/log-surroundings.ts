/** The surroundings of a log on disk: the rig file above it, the dialect that it names, the frames of its session. */
import { existsSync, realpathSync, statSync } from 'node:fs';
import { basename, dirname, join, relative, resolve, sep } from 'node:path';
import { DateTime } from 'luxon';
import { ConfigError, parseRig, type Rig } from './config/index.js';
import { pathMatcher } from './files/glob.js';
import { MAX_CONFIG_BYTES, readTextFile } from './files/read-text.js';
import { isWithin } from './files/within.js';
import type { FrameTimes } from './gather/dialects/reading.js';
import { isFitsName, readHeaderFrames } from './gather/fits/index.js';
import { assignTrains, matchKeywords } from './gather/assign-trains.js';
import { RIG_FILES, sessionPaths } from './gather/index.js';
import { INFERENCE_KEYWORDS, inferRig } from './gather/infer-rig.js';
import { listSessionFiles } from './gather/session-files.js';
import { durationMs, isDatedLight, type HeaderFrame } from './model/index.js';

/** How many folders above a log a rig file is looked for. */
const LOOK_UP = 6;

/** A rig file above a log. */
export interface RigAbove {
  readonly rig: Rig;
  readonly folder: string;
}

/** A dialect's text, and the train whose log it describes if a rig file says so. */
export interface NamedDialect {
  readonly text: string;
  readonly name: string;
  readonly train?: string;
}

/** The absolute path of a log. @throws Error when there is no such file, or when it is a frame or a rig file */
export function logFile(log: string): string {
  const path = resolve(log);
  const stat = statSync(path, { throwIfNoEntry: false });
  if (!stat) throw new Error(`there is no file ${log}`);
  if (!stat.isFile()) throw new Error(`${log} is a folder; name one log in it`);
  if (isFitsName(path)) throw new Error(`${log} is a frame, which needs no dialect; name a log`);
  if (RIG_FILES.some((name) => basename(path) === name)) throw new Error(`${log} is a rig file; name a log`);
  return path;
}

/**
 * The nearest readable rig file above a log, `null` if there is none.
 *
 * @param onBroken is given why one could not be read
 */
export function rigAbove(path: string, onBroken: (why: string) => void = () => undefined): RigAbove | null {
  let folder = dirname(path);
  for (let i = 0; i < LOOK_UP; i++) {
    for (const name of RIG_FILES) {
      const file = join(folder, name);
      if (!existsSync(file)) continue;
      try {
        return { rig: sessionPaths(parseRig(name, readConfig(file)).rig, folder), folder };
      } catch (error) {
        const [why = ''] = (error instanceof Error ? error.message : String(error)).split('\n');
        onBroken(`${file} cannot be read, so neither its site and zone nor its trains were used: ${why}`);
        return null;
      }
    }
    if (dirname(folder) === folder) return null;
    folder = dirname(folder);
  }
  return null;
}

/** A dialect file that the user names. @throws Error when it cannot be read */
export function namedDialect(name: string): NamedDialect {
  return { text: readConfig(resolve(name)), name };
}

/**
 * The dialect that the rig file above a log names for it.
 *
 * @param untrusted the rig file is a stranger's: it may not name a file outside its folder
 * @throws ConfigError when it does
 */
export function dialectOf(path: string, found: RigAbove | null, untrusted: boolean): NamedDialect | null {
  if (!found) return null;
  const inSession = relative(found.folder, path).split(sep).join('/');
  const selectors = [
    ...found.rig.trains.flatMap((t) => t.logs.map((log) => ({ ...log, train: t.id as string | undefined }))),
    ...(found.rig.guiding?.logs ?? []).map((log) => ({ ...log, train: undefined })),
  ];
  const named = selectors.find((s) => s.dialect !== undefined && pathMatcher(s.files)(inSession));
  if (named?.dialect === undefined) return null;
  const file = resolve(found.folder, named.dialect);
  if (untrusted && !isWithin(realpathSync(found.folder), realpathSync(file)))
    throw new ConfigError([
      `the dialect ${named.dialect} is outside the session folder and was not read; name it with --dialect ` +
        'if you trust it',
    ]);
  return { text: readConfig(file), name: named.dialect, train: named.train };
}

/** What the frames of a session folder imply for a log next to them. */
export interface SessionFrames {
  /** The light frames, in order of time. */
  readonly frames: readonly FrameTimes[];
  /** The site, if a header states it. */
  readonly place: { readonly latitudeDeg: number; readonly longitudeDeg: number } | null;
}

/** No session was named. */
export const NO_SESSION: SessionFrames = { frames: [], place: null };

/**
 * Reads the headers of a session folder.
 *
 * @param rig the rig file of the folder, if it has one: it says which train a frame is of
 */
export async function framesOf(
  session: string,
  { nowMs, untrusted }: { readonly nowMs: number; readonly untrusted?: boolean },
  rig: RigAbove | null = null,
): Promise<SessionFrames> {
  const root = resolve(session);
  const files = listSessionFiles(root, [], untrusted).files.flatMap(({ path }) => (isFitsName(path) ? [path] : []));
  const own = rig !== null && resolve(rig.folder) === root ? rig.rig : null;
  const keep = [...INFERENCE_KEYWORDS, ...matchKeywords(own?.trains ?? [])];
  const { frames } = await readHeaderFrames(root, files, { nowMs, keep, extra: own?.keywords ?? {} });
  const trains = trainsOf(frames, own ?? inferRig(frames));
  return {
    frames: frames
      .filter(isDatedLight)
      .map(({ file, exposure, filter, target }) => ({
        file,
        beginMs: exposure.startMs,
        seconds: durationMs(exposure) / 1000,
        ...given({ train: trains.get(file), filter, target }),
      }))
      .sort((a, b) => a.beginMs - b.beginMs),
    place: frames.find(({ site }) => site !== undefined)?.site ?? null,
  };
}

/** The trains of frames by their files; none where a rig file's patterns contradict each other. */
function trainsOf(frames: readonly HeaderFrame[], { trains }: Rig): ReadonlyMap<string, string> {
  try {
    return new Map(assignTrains(frames, trains).frames.map(({ file, train }) => [file, train]));
  } catch (error) {
    if (error instanceof ConfigError) return new Map();
    throw error;
  }
}

/** The facts that are known. */
function given(facts: Readonly<Record<'train' | 'filter' | 'target', string | undefined>>): Partial<FrameTimes> {
  return Object.fromEntries(Object.entries(facts).filter(([, value]) => value !== undefined));
}

/** The local date of the evening on which frames begin, `YYYY-MM-DD`; empty if there are none. */
export function eveningOf(frames: readonly FrameTimes[], zone: string | undefined): string | undefined {
  const [first] = frames;
  if (first === undefined) return undefined;
  // Before noon the evening was the day before.
  const local = DateTime.fromMillis(first.beginMs, { zone: zone ?? 'utc' }).minus({ hours: 12 });
  return local.isValid ? (local.toISODate() ?? undefined) : undefined;
}

function readConfig(path: string): string {
  return readTextFile(path, { maxBytes: MAX_CONFIG_BYTES });
}
