/**
 * What a report on a simulated night must say, in the record's words. Figured out here from the simulation's own
 * books, without the program's code.
 */
import type { DrawnTruth, ScenarioTrain } from './scenario.js';
import type { Simulation, SimulatedFrame } from './simulation.js';
import { frameName } from './simulation.js';
import { type Seen, trueVerdict } from './true-verdict.js';

export interface Truth {
  readonly night: string;
  readonly totals: readonly {
    target: string;
    filter: string;
    train: string;
    frames: Record<'taken' | 'kept' | 'doubtful' | 'lost', number>;
    seconds: Record<'taken' | 'kept' | 'doubtful' | 'lost', number>;
  }[];
  /** Seconds per train and account, without `unexplained`, which is what the window leaves over. */
  readonly ledger: Readonly<Record<string, Readonly<Record<string, number>>>>;
  readonly dithers: readonly {
    begin: string;
    waits: Record<string, number>;
    holder: string | null;
    moveSeconds: number;
    settleSeconds: number;
  }[];
  /** Frames that are not kept. */
  readonly harmed: readonly {
    train: string;
    begin: string;
    file: string | null;
    verdict: string;
    kinds: string[];
    causedBy: string[];
  }[];
  /** What was drawn, by file; absent where pixels are empty. */
  readonly drawn?: Readonly<Record<string, DrawnTruth>>;
}

/** The truth of a simulated night. */
export function truthOf(night: string, simulation: Simulation, trains: readonly ScenarioTrain[]): Truth {
  const seen = new Map(trains.map((train) => [train.id, seenOn(train, simulation)]));
  const judged = simulation.frames.map((frame) => ({
    frame,
    ...trueVerdict(frame, simulation, seen.get(frame.train) ?? 'not-seen'),
  }));
  const totals = new Map<string, Truth['totals'][number]>();
  const ledger: Record<string, Record<string, number>> = {};
  for (const [train, accounts] of Object.entries(simulation.booked)) {
    ledger[train] = {
      kept: 0,
      doubtful: 0,
      lost: 0,
      ...Object.fromEntries(Object.entries(accounts).map(([a, ms]) => [a, ms / 1000])),
    };
  }
  for (const { frame, verdict } of judged) {
    const key = [frame.target, frame.filter, frame.train].join('|');
    const zero = () => ({ taken: 0, kept: 0, doubtful: 0, lost: 0 });
    const total = totals.get(key) ?? {
      target: frame.target,
      filter: frame.filter,
      train: frame.train,
      frames: zero(),
      seconds: zero(),
    };
    totals.set(key, total);
    const seconds = (frame.endMs - frame.beginMs) / 1000;
    total.frames.taken += 1;
    total.frames[verdict] += 1;
    total.seconds.taken += seconds;
    total.seconds[verdict] += seconds;
    ledger[frame.train]![verdict]! += seconds;
  }
  return {
    night,
    totals: [...totals.values()].map((t) => ({
      ...t,
      seconds: mapValues(t.seconds, milli) as Truth['totals'][number]['seconds'],
    })),
    ledger: mapValues(ledger, (accounts) => mapValues(accounts, milli)),
    dithers: simulation.cycles.map((c) => ({
      begin: new Date(c.beginMs).toISOString(),
      waits: mapValues(c.readyMs, (readyMs) => (c.beginMs - readyMs) / 1000),
      holder: c.holder,
      moveSeconds: c.moveMs / 1000,
      settleSeconds: c.settleMs / 1000,
    })),
    harmed: judged
      .filter((j) => j.verdict !== 'kept')
      .map(({ frame, verdict, harms }) => ({
        train: frame.train,
        begin: new Date(frame.beginMs).toISOString(),
        file: frame.aborted ? null : framePath(frame),
        verdict,
        kinds: [...new Set(harms.map((h) => h.kind))].sort(),
        causedBy: [...new Set(harms.flatMap((h) => h.causedBy ?? []))].sort(),
      }))
      .sort((a, b) => (a.begin < b.begin ? -1 : 1)),
  };
}

/** The invented camera's, on every train. */
const PIXEL_UM = 3.76;

/** The middle of the star sizes that the files state, as a sigma; nothing is seen without guiding samples. */
function seenOn({ id, focalLengthMm }: ScenarioTrain, { frames, samples }: Simulation): Seen {
  const sizes = frames
    .filter((frame) => frame.train === id && !frame.aborted)
    .map(({ starSize }) => starSize)
    .sort((a, b) => a - b);
  const [low, high] = [sizes[Math.floor((sizes.length - 1) / 2)], sizes[Math.ceil((sizes.length - 1) / 2)]];
  if (samples.length === 0 || low === undefined || high === undefined) return 'not-seen';
  return { sigmaArcsec: ((low + high) / 2 / 1.1774) * ((206.265 * PIXEL_UM) / focalLengthMm) };
}

/** Where the sample puts a frame, relative to the session folder. */
export function framePath(frame: SimulatedFrame): string {
  return `frames/${frame.train}/${frame.filter}/${frameName(frame)}`;
}

function milli(value: number): number {
  return Math.round(value * 1000) / 1000;
}

function mapValues<A, B>(record: Readonly<Record<string, A>>, map: (value: A) => B): Record<string, B> {
  return Object.fromEntries(Object.entries(record).map(([key, value]) => [key, map(value)]));
}
