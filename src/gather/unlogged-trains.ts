/**
 * Trains of the rig file that have frames and no log, while another train's log begins exposures without a file at the
 * same instants: a new computer that writes another telescope's name makes one train look like two, and each of its
 * exposures would be counted twice, once by its file and once by the log.
 */
import type { Rig, TrainConfig } from '../config/index.js';
import { counted, isDatedLight, itemAt, type Warning } from '../model/index.js';
import type { TrainFrame } from './assign-trains.js';
import { Begun, sameCamera } from './begun-exposures.js';
import type { PlacedFrames, SessionLogs } from './session.js';

/** Lights that are no chance. Common practice, no source. */
const FEWEST_LIGHTS = 5;
/** Minimum share of its lights that the other's log begins; a log may start late. Common practice, no source. */
const LEAST_SHARE = 0.8;
/** More folders than this are no example. */
const MOST_FOLDERS = 4;

/** What is read for a session before it is put together. */
export interface Read {
  readonly rig: Rig;
  readonly placed: PlacedFrames;
  readonly logs: SessionLogs;
}

/** Gives the frames of such trains to the train whose log has them, and takes the trains out of the rig. */
export function withUnloggedJoined(read: Read): Read {
  if (read.logs.events.length === 0) return read;
  return read.rig.trains.reduce((known, { id }) => {
    const to = ownerOf(id, known);
    return to === null ? known : joined(known, id, to);
  }, read);
}

/** The only train that a train's frames can be of by its log; `null` for none, or several. */
function ownerOf(from: string, { rig, placed, logs }: Read): string | null {
  if (logs.lineTimes.some(({ train }) => train === from) || logs.events.some(({ train }) => train === from))
    return null;
  const lights = placed.frames.filter(isDatedLight);
  const own = lights.filter(({ train }) => train === from);
  if (own.length < FEWEST_LIGHTS) return null;
  const owners = rig.trains.filter(({ id }) => {
    const others = lights.filter(({ train }) => train === id);
    if (id === from || !sameCamera(own, others)) return false;
    const events = logs.events.filter(({ train }) => train === id);
    const begun = new Begun(events, others, rig.filterAliases);
    return !begun.meets(own) && begun.countOf(own) >= LEAST_SHARE * own.length;
  });
  return owners.length === 1 ? itemAt(owners, 0).id : null;
}

function joined({ rig, placed, logs }: Read, from: string, to: string): Read {
  const renamed = <T extends { readonly train?: string | undefined }>(item: T): T =>
    item.train === from ? { ...item, train: to } : item;
  const wasPilot = rig.trains.some(({ id, role }) => id === from && role === 'pilot');
  return {
    rig: {
      ...rig,
      trains: rig.trains
        .filter(({ id }) => id !== from)
        .map((train): TrainConfig => (train.id === to && wasPilot ? { ...train, role: 'pilot' } : train)),
      guiding: rig.guiding && renamed(rig.guiding),
    },
    placed: {
      frames: placed.frames.map(renamed),
      inputs: placed.inputs.map(renamed),
      warnings: [...placed.warnings, warningOf(placed.frames, rig.trains, from, to)],
    },
    logs: {
      ...logs,
      warnings: logs.warnings.filter(({ code, train }) => code !== 'log-not-found' || train !== from),
    },
  };
}

function warningOf(frames: readonly TrainFrame[], trains: readonly TrainConfig[], from: string, to: string): Warning {
  const own = frames.filter(({ train, kind }) => train === from && kind === 'light');
  const folders = foldersOf(frames, [to, from]);
  const globs = folders?.map((folder) => JSON.stringify(`${folder}/**`)).join(', ');
  const both =
    bothMatches(trains, from, to) ??
    `${globs === undefined ? 'frames: globs that find both' : `frames: [${globs}]`} in place of match:`;
  return {
    code: 'unlogged-train-joined',
    message:
      `${counted(own.length, 'light')} of ${from}, which has no log, are the exposures that the log of ${to} has ` +
      `without a file: they are counted once, as frames of ${to}. In the rig file, remove ${from} and give ${to} ` +
      `${both}; if ${from} is another camera, name its log instead`,
    source: { file: itemAt(own, 0).file },
    train: to,
    count: own.length,
  };
}

/** `match: { TELESCOP: ["a", "b"] }` where both trains are told apart by one keyword; `null` otherwise. */
function bothMatches(trains: readonly TrainConfig[], from: string, to: string): string | null {
  const [one, other] = [to, from].map((id) => Object.entries(trains.find((t) => t.id === id)?.match ?? {}));
  const [[keyword, value] = [], [same, second] = []] = [one?.[0], other?.[0]];
  if (one?.length !== 1 || other?.length !== 1 || keyword === undefined || keyword !== same) return null;
  if (value === undefined || second === undefined) return null;
  return `match: { ${keyword}: ${JSON.stringify([value, second].flat())} }`;
}

/** The folders of some trains' frames; `null` if globs of them would find others' too, or they are too many to name. */
function foldersOf(frames: readonly TrainFrame[], trains: readonly string[]): string[] | null {
  const folders = [
    ...new Set(
      trains.flatMap((id) =>
        frames.flatMap(({ file, train }) => (train === id ? [file.split('/').slice(0, -1).join('/')] : [])),
      ),
    ),
  ];
  const isInside = (file: string): boolean => folders.some((folder) => file.startsWith(`${folder}/`));
  const isShared = frames.some(({ file, train }) => !trains.includes(train) && isInside(file));
  return isShared || folders.includes('') || folders.length > MOST_FOLDERS ? null : folders;
}
