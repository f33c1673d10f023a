import { clip, coveredMs, durationMs, increment, type Night, type VerdictTally, lightsOf } from '../../model/index.js';

/** One train's result of the night. Milliseconds. */
export interface TrainWorth {
  readonly train: string;
  readonly frames: VerdictTally;
  readonly integrationMs: VerdictTally;
  /** Open shutter inside the window. */
  readonly openMs: number;
  /** Idle because of the other train, inside the window: dither waits and other waits. */
  readonly waitingMs: number;
}

/** The result of the night, all trains together. Milliseconds. */
export interface NightWorth {
  readonly windowMs: number;
  readonly trains: readonly TrainWorth[];
  readonly frames: VerdictTally;
  readonly integrationMs: VerdictTally;
  readonly waitingMs: number;
  /** Kept integration of all trains ÷ that of the better one; `null` when nothing was kept. */
  readonly twinGain: number | null;
  /** Open shutter ÷ window, over all trains; `null` when the window is empty. */
  readonly openShare: number | null;
  /** How long the others waited at dithers for each train that was ready last, longest first. */
  readonly held: readonly { readonly holder: string; readonly ms: number }[];
}

const NOTHING: VerdictTally = { taken: 0, kept: 0, doubtful: 0, lost: 0 };

function add(a: VerdictTally, b: VerdictTally): VerdictTally {
  return { taken: a.taken + b.taken, kept: a.kept + b.kept, doubtful: a.doubtful + b.doubtful, lost: a.lost + b.lost };
}

function sum(tallies: readonly VerdictTally[]): VerdictTally {
  return tallies.reduce(add, NOTHING);
}

function heldBy(night: Night): NightWorth['held'] {
  const held = new Map<string, number>();
  for (const cycle of night.accounts.dithers) {
    if (cycle.holder === null) continue;
    const waited = Object.entries(cycle.waits).reduce(
      (total, [train, wait]) => total + (train === cycle.holder ? 0 : (wait?.waitMs ?? 0)),
      0,
    );
    increment(held, cycle.holder, waited);
  }
  return [...held].map(([holder, ms]) => ({ holder, ms })).sort((a, b) => b.ms - a.ms);
}

/** Summarises a night: integration per verdict, the twin gain, waits and who caused them. */
export function worthOf(night: Night): NightWorth {
  const trains = night.gathered.trains.map(({ id }): TrainWorth => {
    const totals = night.accounts.totals.filter((total) => total.train === id);
    const ledger = night.accounts.ledgers.find((one) => one.train === id)?.totalsMs;
    return {
      train: id,
      frames: sum(totals.map((total) => total.frames)),
      integrationMs: sum(totals.map((total) => total.ms)),
      openMs: ledger ? ledger.kept + ledger.doubtful + ledger.lost : 0,
      waitingMs: ledger ? ledger['dither-wait'] + ledger['partner-wait'] : 0,
    };
  });
  const integrationMs = sum(trains.map((train) => train.integrationMs));
  const best = Math.max(0, ...trains.map((train) => train.integrationMs.kept));
  const windowMs = durationMs(night.sky.window);
  return {
    windowMs,
    trains,
    integrationMs,
    frames: sum(trains.map((train) => train.frames)),
    waitingMs: trains.reduce((total, train) => total + train.waitingMs, 0),
    twinGain: best > 0 ? integrationMs.kept / best : null,
    openShare:
      windowMs > 0 && trains.length > 0
        ? trains.reduce((total, train) => total + train.openMs, 0) / (windowMs * trains.length)
        : null,
    held: heldBy(night),
  };
}

/** How long, inside the window, any target imaged by the train was above its limit; `null` when no curve is known. */
export function targetUpMs(night: Night, train: string): number | null {
  const imaged = new Set(lightsOf(night, train).map((frame) => frame.target));
  const curves = night.sky.curves.filter((curve) => imaged.has(curve.target));
  if (curves.length === 0) return null;
  return coveredMs(
    clip(
      curves.flatMap((curve) => curve.up),
      night.sky.window,
    ),
  );
}
