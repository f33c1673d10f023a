/**
 * Gathering: a session folder in, frames, events and guiding samples out, each with its provenance.
 */
import { existsSync } from 'node:fs';
import { basename, join } from 'node:path';
import { DateTime } from 'luxon';
import { parseRig, type Rig } from '../config/index.js';
import { RIG_FILES } from '../config/rig-names.js';
import { MAX_CONFIG_BYTES, readTextFile } from '../files/read-text.js';
import { isDatedLight, type InputFile, type Warning } from '../model/index.js';
import { matchKeywords, wantedFrameFiles, type TrainFrame } from './assign-trains.js';
import { fewWarnings } from './few-warnings.js';
import { isFitsName, readHeaderFrames, type ExtraKeywords, type HeaderFrames } from './fits/index.js';
import { inferenceWarnings, inferRig, INFERENCE_KEYWORDS } from './infer-rig.js';
import { gatherLogs } from './logs.js';
import { unexplainedWarnings, withSeconds } from './milliseconds.js';
import { underTheirTrains } from './misplaced-logs.js';
import { withOneZone } from './mixed-zones.js';
import type { GatherOptions } from './options.js';
import { listSessionFiles } from './session-files.js';
import { sessionPaths } from './session-paths.js';
import { placeFrames, sessionOf, type Session } from './session.js';
import { withRightAscensions } from './right-ascensions.js';
import { placedByHeaders } from './target-places.js';
import { opticsWarnings } from './stated-optics.js';
import { withUnloggedJoined } from './unlogged-trains.js';
import { unreadLogs } from './unread-logs.js';
import { unservedWarnings } from './unserved-trains.js';
import { readUnderUserRig, readUserRigs, type UserRig } from './user-rigs.js';

export type { GatherOptions } from './options.js';
export type { TrainFrame } from './assign-trains.js';
export { gatheredUnder, timelineUnder } from './judge-again.js';
export { joinGathered } from './join-gathered.js';
export { clocksByHand, gatherNight } from './night.js';
export { onOneClock } from './one-clock.js';
export { pilotFirst } from './trains.js';
export { activeInstants, eveningOf, placeFrames, sessionOf, type Session } from './session.js';
export { listSessionFiles as sessionFiles } from './session-files.js';
export { sessionPaths } from './session-paths.js';
export { rightAscensionsAsBefore } from './right-ascensions.js';
export { placedAsBefore } from './target-places.js';
export { starterRig, type Starter } from './starter.js';

export { RIG_FILES };

/**
 * Reads a session folder.
 *
 * @throws ConfigError when the rig file cannot be used, or two trains claim one frame
 * @throws Error when the folder itself cannot be read
 */
export async function gatherSession(root: string, options: GatherOptions): Promise<Session> {
  const listing = listSessionFiles(root, options.skip, options.untrusted);
  const written = readRigFile(root, options.rigFile);
  const own = written ? { rigs: [], warnings: [] } : readUserRigs(options.userRigs);
  const fits = listing.files.filter((f) => isFitsName(f.path));
  const wanted = written
    ? wantedFrameFiles(
        fits.map((f) => f.path),
        written.rig.trains,
      )
    : fits.map((f) => f.path);
  const read = (extra: ExtraKeywords | undefined): Promise<HeaderFrames> =>
    readHeaderFrames(root, wanted, {
      nowMs: options.nowMs,
      extra,
      keep: written
        ? matchKeywords(written.rig.trains)
        : [...INFERENCE_KEYWORDS, ...own.rigs.flatMap((u) => matchKeywords(u.rig.trains))],
      onProgress: options.onProgress,
    });
  const { taken, headers } = written
    ? { taken: null, headers: await read(written.rig.keywords) }
    : await readUnderUserRig(own.rigs, read);
  const timed = withSeconds(headers.frames);
  const zoned = withOneZone(timed.frames);
  const ascended = withRightAscensions(written?.rig ?? taken?.rig ?? inferRig(zoned.frames), zoned.frames);
  const { rig: described, warnings: unplaced } = placedByHeaders(ascended.rig, zoned.frames);
  const assigned = placeFrames(zoned.frames, described);
  const gathered = await gatherLogs(root, listing.files, described, {
    evening: firstEvening(assigned.frames, described),
    untrusted: options.untrusted ?? false,
  });
  // First, since the log of two trains that are one names frames of both.
  const { rig, placed, logs } = withUnloggedJoined({ rig: described, placed: assigned, logs: gathered });
  const session = sessionOf(rig, placed, underTheirTrains(logs, placed.frames));
  return {
    ...session,
    inputs: [...(written?.inputs ?? []), ...(taken ? [inputOf(taken)] : []), ...session.inputs],
    warnings: fewWarnings([
      ...listing.warnings,
      ...own.warnings,
      ...(written?.warnings ??
        (taken
          ? [userRigTaken(taken)]
          : [noRigFile(rig), ...unreadLogs(root, listing.files), ...inferenceWarnings(zoned.frames)])),
      ...unexplainedWarnings(headers.warnings, timed.warnings),
      ...ascended.warnings,
      ...unplaced,
      ...timed.warnings,
      ...zoned.warnings,
      ...(written || taken
        ? [
            ...unservedWarnings(rig.trains, {
              paths: fits.map((f) => f.path),
              read: headers.frames,
              placed: placed.frames,
            }),
            ...opticsWarnings(rig.trains, placed.frames),
          ]
        : []),
      ...session.warnings,
    ]),
  };
}

/** Local date of the evening on which the first light was taken: noon divides the nights. */
function firstEvening(frames: readonly TrainFrame[], { site }: Rig): string | undefined {
  const starts = frames.filter(isDatedLight).map((f) => f.exposure.startMs);
  if (starts.length === 0) return undefined;
  const first = starts.reduce((a, b) => Math.min(a, b));
  return DateTime.fromMillis(first, { zone: site?.timezone ?? 'utc' })
    .minus({ hours: 12 })
    .toFormat('yyyy-MM-dd');
}

function readRigFile(root: string, override: string | undefined) {
  const path = override ?? RIG_FILES.map((name) => join(root, name)).find((p) => existsSync(p));
  if (path === undefined) return null;
  const name = override ?? path.slice(root.length).replace(/^[\\/]+/, '');
  const text = readTextFile(path, { maxBytes: MAX_CONFIG_BYTES, name });
  const { rig, warnings } = parseRig(name, text);
  const input: InputFile = { file: name, role: 'rig-file', sizeBytes: Buffer.byteLength(text) };
  return { rig: sessionPaths(rig, root), warnings, inputs: [input] };
}

function inputOf({ file, sizeBytes }: UserRig): InputFile {
  return { file: basename(file), role: 'rig-file', sizeBytes };
}

function userRigTaken({ file, rig }: UserRig): Warning {
  return {
    code: 'user-rig',
    message:
      `no rig file in the session folder: ${basename(file)} of your own rigs fits its headers (trains ` +
      `${rig.trains.map((t) => t.id).join(', ')}) and was used; a rig file in the session folder ` +
      'would take precedence',
  };
}

function noRigFile(rig: Rig): Warning {
  const trains = rig.trains.map((t) => t.id).join(', ');
  return {
    code: 'no-rig-file',
    message:
      `no rig file in the session folder: trains (${trains || 'none'}), site and targets were worked ` +
      `out from the headers; \`nightledger init\` writes a rig file to edit`,
  };
}
