/** What a simulated night and its trains are at, and the truth booked as it happens. */
import { seeded, type Random } from './random.js';
import type { Scenario, ScenarioTrain } from './scenario.js';
import type { GuidingOff, SimulatedCycle, SimulatedEvent, SimulatedFrame } from './simulation.js';

/** What a train is at. */
export interface TrainState {
  train: ScenarioTrain;
  freeMs: number;
  planIndex: number;
  doneOfPlan: number;
  frames: number;
  filter: string | null;
  focusPosition: number;
  sinceFocusMs: number;
  /** By how much a bad refocus enlarges its stars, px. */
  worsePx: number;
  refocuses: number;
}

/** A simulated night while it goes on: what came of it so far, and what is still to come. */
export class NightUnderway {
  readonly random: Random;
  readonly events: SimulatedEvent[] = [];
  readonly frames: SimulatedFrame[] = [];
  readonly cycles: SimulatedCycle[] = [];
  readonly strays: { fromMs: number; toMs: number; pixels: number }[] = [];
  readonly guidingOff: GuidingOff[] = [];
  readonly states: TrainState[];
  readonly pilot: TrainState;
  readonly companions: TrainState[];
  readonly endMs: number;
  readonly booked: Record<string, Record<string, number>> = {};
  pierSide: 'east' | 'west' = 'west';
  flipMs: number;
  clouds: { fromMs: number; toMs: number }[];
  turns: NonNullable<Scenario['turns']>;
  aborts: NonNullable<Scenario['aborts']>;
  idles: NonNullable<Scenario['idles']>;
  /** Guiding paused by the pilot's refocus: companions do not begin an exposure within. */
  pauses: { fromMs: number; toMs: number; settledMs: number }[] = [];
  /** Refocuses of all trains together that are done. */
  refocused = 0;

  constructor(readonly scenario: Scenario) {
    this.random = seeded(scenario.seed);
    this.states = scenario.trains.map((train) => ({
      train,
      freeMs: 0,
      planIndex: 0,
      doneOfPlan: 0,
      frames: 0,
      filter: null,
      focusPosition: 10_000,
      sinceFocusMs: 0,
      worsePx: 0,
      refocuses: 0,
    }));
    this.pilot = this.states.find((s) => s.train.role === 'pilot')!;
    this.companions = this.states.filter((s) => s !== this.pilot);
    this.endMs = Date.parse(scenario.end);
    this.flipMs = scenario.flipAt === undefined ? Infinity : Date.parse(scenario.flipAt);
    this.clouds = scenario.clouds.map((c) => ({ fromMs: Date.parse(c.from), toMs: Date.parse(c.to) }));
    this.turns = scenario.turns ?? [];
    this.aborts = scenario.aborts ?? [];
    this.idles = scenario.idles ?? [];
    for (const s of this.states) this.booked[s.train.id] = {};
  }

  /** Writes what a train's computer would log. */
  log(atMs: number, s: TrainState, event: string, fields: Record<string, string | number | boolean>): void {
    this.events.push({ atMs, train: s.train.id, event, ...fields });
  }

  /** Books time of a train on an account, ms. */
  book(s: TrainState, account: string, ms: number): void {
    const own = this.booked[s.train.id]!;
    own[account] = (own[account] ?? 0) + ms;
  }
}
