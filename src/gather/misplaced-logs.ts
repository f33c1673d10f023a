/**
 * Logs that the rig file assigns to a train whose frames they never mention, while they mention another's: each of its
 * exposures would be counted twice, once by its file and once, without one, on the wrong train.
 */
import {
  counted,
  countOf,
  frameNameKey,
  groupBy,
  increment,
  itemAt,
  type TellingEvent,
  type Warning,
} from '../model/index.js';
import type { TrainFrame } from './assign-trains.js';
import type { SessionLogs } from './session.js';

/** Names that are no chance. */
const FEWEST_NAMES = 3;
/** Minimum number of files named by a log that are the other train's; the rest may not have been copied. */
const LEAST_SHARE = 0.5;

/** Reassigns such logs to the train whose frames they name, with a notice. */
export function underTheirTrains(logs: SessionLogs, frames: readonly TrainFrame[]): SessionLogs {
  const owners = ownersOf(frames);
  const moved = new Map<string, Move>();
  for (const [file, events] of groupBy(logs.events, ({ source }) => source.file)) {
    const move = moveOf(events, owners);
    if (move) moved.set(file, move);
  }
  if (moved.size === 0) return logs;
  const placed = <T extends { readonly train?: string | undefined }>(item: T, file: string): T => {
    const move = moved.get(file);
    return move === undefined || item.train !== move.from ? item : { ...item, train: move.to };
  };
  return {
    ...logs,
    events: logs.events.map((event) => placed(event, event.source.file)),
    lineTimes: logs.lineTimes.map((times) => placed(times, times.file)),
    inputs: logs.inputs.map((input) => placed(input, input.file)),
    warnings: [...logs.warnings, ...[...moved].map(([file, move]) => warningOf(file, move))],
  };
}

interface Move {
  readonly from: string;
  readonly to: string;
  /** Files of the other train that the log names. */
  readonly names: number;
}

/** Trains by the names of their frames; names used by several trains are left out. */
function ownersOf(frames: readonly TrainFrame[]): ReadonlyMap<string, string | null> {
  const owners = new Map<string, string | null>();
  for (const { file, train } of frames) {
    const key = frameNameKey(file);
    owners.set(key, (owners.get(key) ?? train) === train && owners.get(key) !== null ? train : null);
  }
  return owners;
}

function moveOf(events: readonly TellingEvent[], owners: ReadonlyMap<string, string | null>): Move | null {
  const trains = new Set(events.map(({ train }) => train));
  const [from] = trains;
  if (from === undefined || trains.size !== 1) return null;
  const names = new Set(
    events.flatMap((event) => ('file' in event && event.file !== undefined ? [frameNameKey(event.file)] : [])),
  );
  const named = new Map<string, number>();
  for (const name of names) {
    const owner = owners.get(name);
    if (owner != null) increment(named, owner);
  }
  if (named.size !== 1) return null;
  const to = itemAt([...named.keys()], 0);
  const count = countOf(named, to);
  if (to === from || count < FEWEST_NAMES || count < LEAST_SHARE * names.size) return null;
  return { from, to, names: count };
}

function warningOf(file: string, { from, to, names }: Move): Warning {
  return {
    code: 'log-of-other-train',
    message:
      `${file} is listed under ${from} in the rig file, but it names ${counted(names, 'frame')} of ${to} and none of ` +
      `${from}: it was read as ${to}’s log. Name it under ${to}`,
    source: { file },
    count: names,
  };
}
