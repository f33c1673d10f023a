/** The inputs of a starter rig file: the frames' headers and the names of possible logs. */
import { starterYaml, type Rig } from '../config/index.js';
import { groupBy, listed, targetKey, type HeaderFrame, type Warning } from '../model/index.js';
import { assignTrains } from './assign-trains.js';
import { fittingDialects } from './fitting-dialects.js';
import { isFitsName, readHeaderFrames } from './fits/index.js';
import { inferenceWarnings, inferRig, INFERENCE_KEYWORDS } from './infer-rig.js';
import { unexplainedWarnings, withSeconds } from './milliseconds.js';
import { withOneZone } from './mixed-zones.js';
import type { GatherOptions } from './options.js';
import { isLogName, listSessionFiles } from './session-files.js';
import { logOwners } from './log-owners.js';
import { withoutNoLogs } from './no-logs.js';
import { ownFormatLogs } from './own-format.js';
import { steeringTrain } from './pilot-evidence.js';
import { named } from './session.js';
import { pilotFirst } from './trains.js';

/** A starter rig file, and notices about it. */
export interface Starter {
  readonly yaml: string;
  readonly summary: readonly string[];
  readonly warnings: readonly Warning[];
}

export interface StarterOptions extends GatherOptions {
  /** The folder of the user's dialects, which are tried on the logs that are found. */
  readonly dialectFolder?: string;
}

/**
 * Looks at a session folder's frames and drafts a rig file.
 *
 * @throws Error when the folder cannot be read or holds no frames
 */
export async function starterRig(root: string, options: StarterOptions): Promise<Starter> {
  const listing = listSessionFiles(root, options.skip, options.untrusted);
  const fits = listing.files.filter((f) => isFitsName(f.path)).map((f) => f.path);
  if (fits.length === 0)
    throw new Error(`${root} holds no FITS files (.fits, .fit, .fts, .gz, .fz); name the folder with the frames`);
  const headers = await readHeaderFrames(root, fits, {
    nowMs: options.nowMs,
    keep: INFERENCE_KEYWORDS,
    onProgress: options.onProgress,
  });
  if (headers.frames.length === 0)
    throw new Error(`none of the ${fits.length} FITS files in ${root} has a header that can be read`);
  const timed = withSeconds(headers.frames);
  const zoned = withOneZone(timed.frames);
  const frames = zoned.frames.map(named);
  const inferred = inferRig(frames);
  const assigned = assignTrains(frames, inferred.trains);
  const byTrain = groupBy(
    assigned.frames.filter((f) => f.kind === 'light'),
    (f) => f.train,
  );
  const logs = withoutNoLogs(
    root,
    listing.files.filter(({ path }) => isLogName(path)),
  );
  const owners = logOwners(
    root,
    logs,
    inferred.trains.map((train) => ({ train, lights: byTrain.get(train.id) ?? [] })),
  );
  const steering = await steeringTrain(
    root,
    logs,
    inferred.trains.map(({ id }) => id),
    owners,
  );
  const rig = steering === null ? inferred : withPilot(inferred, steering);
  const unplaced = unplacedNames(frames, rig);
  const ownFormat = ownFormatLogs(root, logs);
  const fitting =
    options.dialectFolder === undefined
      ? new Map<string, string>()
      : await fittingDialects(root, logs, options.dialectFolder);
  const yaml = starterYaml(rig, {
    frames: Object.fromEntries([...byTrain].map(([id, own]) => [id, own.length])),
    filters: Object.fromEntries(
      [...byTrain].map(([id, own]) => [id, [...new Set(own.flatMap((f) => f.filter ?? []))].sort()]),
    ),
    unplaced,
    logs: logs.map(({ path }) => path),
    ownFormat,
    dialects: Object.fromEntries(fitting),
    owners: Object.fromEntries(owners),
  });
  return {
    yaml,
    summary: [
      ...[...byTrain].map(([id, own]) => `train ${id}: ${own.length} lights`),
      rig.site
        ? 'site taken from the headers'
        : 'no site in the headers: fill it in, or darkness and Moon are left out',
      ...(unplaced.length > 0
        ? [
            `no coordinates of ${listed(unplaced)} in the headers: fill in ra and dec under targets:, or ` +
              'altitude, air mass and Moon distance are left out',
          ]
        : []),
      ...[...fitting].map(([log, dialect]) => `log ${log}: the dialect ${dialect} fits`),
      `check which train is the pilot (${rig.trains[0]?.id ?? 'none'} is taken for it` +
        `${steering === null ? '' : ': its log steers the mount'})` +
        (logs.some(({ path }) => !ownFormat.includes(path)) && fitting.size === 0
          ? ', then describe the logs: the rig file has the commands'
          : '') +
        '; then nightledger report',
    ],
    warnings: [
      ...listing.warnings,
      ...unexplainedWarnings(headers.warnings, timed.warnings),
      ...timed.warnings,
      ...zoned.warnings,
      ...inferenceWarnings(frames),
      ...assigned.warnings,
    ],
  };
}

/** The rig with another pilot, which comes first. */
function withPilot(rig: Rig, pilot: string): Rig {
  const trains = rig.trains.map((t) => ({ ...t, role: t.id === pilot ? ('pilot' as const) : ('companion' as const) }));
  return { ...rig, trains: pilotFirst(trains) };
}

/** Names of imaged targets whose coordinates are in no header, in the order they were imaged. */
function unplacedNames(frames: readonly HeaderFrame[], { targets }: Rig): string[] {
  const placed = new Set(targets.map((t) => targetKey(t.name)));
  const imaged = frames.flatMap((f) => (f.kind === 'light' && f.target !== undefined ? [f.target] : []));
  const byKey = groupBy(imaged, targetKey);
  return [...byKey].flatMap(([key, names]) => (placed.has(key) ? [] : names.slice(0, 1)));
}
