/**
 * The discrete-event model: trains on one mount, run by rules. At each step the train that is free first decides what
 * it does next; trains that wait for others are released by the dither or the stop they wait for.
 */
import type { Interval } from '../model/index.js';
import type { Course, ReplayRules, Stop, StopShare, TrainCourse } from './course.js';
import type { Draws } from './draws.js';

/** One exposure of a replayed night. */
export interface SimulatedExposure {
  readonly startMs: number;
  readonly endMs: number;
  readonly target?: string;
  readonly cut: boolean;
}

/** A replayed night, before anything in it is judged. */
export interface Run {
  /** By train, in the course's order; sorted by start. */
  readonly exposures: readonly (readonly SimulatedExposure[])[];
  readonly waitedMs: readonly number[];
  readonly dithers: number;
  /** Mount motion and guiding off that came of the rules. */
  readonly motion: readonly Interval[];
  readonly guidingOff: readonly Interval[];
}

/** Refocuses due within this of a common one are done with it, ms. */
const TOGETHER_MS = 5_400_000;
/** No night has this many steps; a replay that does has lost its way. */
const MAX_STEPS = 200_000;

/** One train while it is run: what the rules say of it, looked up once, and where it stands. */
interface State {
  readonly index: number;
  readonly train: TrainCourse;
  readonly isAwaited: boolean;
  readonly setExposureMs: number | undefined;
  readonly ownCount: number | undefined;
  readonly patienceMs: number;
  readonly restsInPauses: boolean;
  readonly isAwaitedToStart: boolean;
  /** How each stop concerns it. */
  readonly shares: readonly (StopShare | undefined)[];
  freeMs: number;
  waitingSinceMs: number | null;
  /** Rests until `freeMs` for reasons of its own: nobody waits for it. */
  absent: boolean;
  done: boolean;
  frames: number;
  sinceDither: number;
  block: number;
  leftMs: number;
  nextFocus: number;
  nextAbsence: number;
}

/**
 * Runs a night.
 *
 * @param course what the night gives
 * @param rules what it is run by
 * @param draws where the durations come from
 */
export function simulate(course: Course, rules: ReplayRules, draws: Draws): Run {
  return new Simulation(course, rules, draws).run();
}

class Simulation {
  private readonly states: readonly State[];
  private readonly lead: State | undefined;
  private readonly exposures: SimulatedExposure[][];
  private readonly waitedMs: number[];
  private readonly motion: Interval[] = [];
  private readonly guidingOff: Interval[] = [];
  /** With the instant at which a stop begins that waits for nobody; ∞ where it waits. */
  private readonly stops: readonly { readonly stop: Stop; readonly holdMs: number }[];
  /** The latest refocus that paused the guiding. */
  private pause: Interval | undefined;
  private nextStop = 0;
  private cycles = 0;
  private ditherAsked = false;
  /** How many trains wait. */
  private waiting = 0;

  constructor(
    private readonly course: Course,
    private readonly rules: ReplayRules,
    private readonly draws: Draws,
  ) {
    this.states = course.trains.map((train, index): State => ({
      index, train,
      isAwaited: rules.awaited.includes(train.id),
      setExposureMs: rules.exposureMs[train.id],
      ownCount: rules.ownCount[train.id],
      patienceMs: rules.patienceMs[train.id] ?? 0,
      restsInPauses: course.restsInPauses.includes(train.id),
      isAwaitedToStart: course.awaitedToStart.includes(train.id),
      shares: course.stops.map((stop) => stop.trains[train.id]),
      freeMs: rules.startMs[train.id] ?? train.startMs,
      waitingSinceMs: null, absent: false, done: false, frames: 0, sinceDither: 0,
      block: 0, leftMs: budgetMs(train, 0), nextFocus: 0, nextAbsence: 0,
    }));
    this.lead = this.states.find((s) => s.train.id === rules.lead);
    this.exposures = course.trains.map(() => []);
    this.waitedMs = course.trains.map(() => 0);
    // What comes at its own time is moved in resampled runs by up to half an exposure either way: else a rule would
    // win by the mere luck that the clouds came between two of its exposures.
    this.stops = course.stops.map((stop, i) => ({ stop, holdMs: stop.atItsTime ? stop.beginMs + draws.shiftMs(course.longestMs, i) : Infinity }));
  }

  run(): Run {
    for (let steps = 0; steps < MAX_STEPS; steps++) {
      const next = this.nextFree();
      if (this.resolveWaits(next)) continue;
      if (!next) break;
      this.decide(next);
    }
    const { exposures, waitedMs, motion, guidingOff } = this;
    return { exposures, waitedMs, dithers: this.cycles, motion, guidingOff };
  }

  private nextFree(): State | undefined {
    let next: State | undefined;
    for (const s of this.states) if (!s.done && s.waitingSinceMs === null && (!next || s.freeMs < next.freeMs)) next = s;
    return next;
  }

  /** Runs what the waiting trains wait for, when everybody it needs is there, and the stop that waits for nobody. */
  private resolveWaits(next: State | undefined): boolean {
    const coming = this.stops[this.nextStop];
    const holdMs = coming?.holdMs ?? Infinity;
    if (this.waiting === 0 && next && next.freeMs < holdMs) return false;
    const sinceMs = this.waitingSinceMs();
    if (sinceMs < holdMs) {
      if (coming && holdMs === Infinity && this.isStopMet(sinceMs)) {
        this.stopFrom(coming.stop, sinceMs);
        return true;
      }
      if (this.ditherAsked && this.isDitherMet(sinceMs)) {
        this.ditherFrom(sinceMs);
        return true;
      }
    }
    if (coming && holdMs < Infinity && (next ? next.freeMs >= holdMs : sinceMs > -Infinity)) {
      this.holdFrom(coming.stop, holdMs);
      return true;
    }
    if (next || sinceMs === -Infinity) return false;
    // Everybody waits and nobody is left who could release them: the lead is done.
    this.releaseAll();
    return true;
  }

  /** When the last of the waiting trains began to wait; −∞ where none waits. */
  private waitingSinceMs(): number {
    let latest = -Infinity;
    for (const s of this.states) if (s.waitingSinceMs !== null && s.waitingSinceMs > latest) latest = s.waitingSinceMs;
    return latest;
  }

  private isStopMet(sinceMs: number): boolean {
    return (
      this.states.every((s) => s.shares[this.nextStop] === undefined || !this.isMissed(s, sinceMs)) &&
      this.states.some((s) => s.waitingSinceMs !== null && this.restsForStop(s, s.waitingSinceMs))
    );
  }

  private isDitherMet(sinceMs: number): boolean {
    return this.states.every((s) => !s.isAwaited || !this.isMissed(s, sinceMs));
  }

  /** Whether a train that others wait for is still busy: not one that is done, absent or yet to begin. */
  private isMissed(s: State, sinceMs: number): boolean {
    return s.waitingSinceMs === null && !s.done && !(s.absent && s.freeMs > sinceMs) && (s.isAwaitedToStart || !this.isYetToBegin(s, sinceMs));
  }

  private isYetToBegin(s: State, atMs: number): boolean {
    return s.frames === 0 && s.freeMs > atMs;
  }

  private restsForStop(s: State, atMs: number): boolean {
    const share = s.shares[this.nextStop];
    return share !== undefined && atMs >= share.dueMs && this.stops[this.nextStop]?.holdMs === Infinity;
  }

  private release(s: State, atMs: number): void {
    if (s.waitingSinceMs !== null) this.waiting--;
    s.waitingSinceMs = null;
    s.absent = false;
    s.freeMs = atMs;
  }

  /** Lets the waiting trains go on without what they waited for. */
  private releaseAll(atMs = -Infinity): void {
    for (const s of this.states) if (s.waitingSinceMs !== null) this.release(s, Math.max(atMs, s.waitingSinceMs));
  }

  private decide(s: State): void {
    const atMs = s.freeMs;
    s.absent = false;
    if (atMs >= s.train.endMs) {
      s.done = true;
      return;
    }
    if (this.beginsAbsence(s) || this.beginsFocus(s)) return;
    if (this.restsForStop(s, atMs) || this.waitsForDither(s)) {
      s.waitingSinceMs = atMs;
      this.waiting++;
      return;
    }
    const pauseEndMs = this.pauseEndMs(s);
    if (pauseEndMs > atMs) s.freeMs = pauseEndMs;
    else this.expose(s);
  }

  private beginsAbsence(s: State): boolean {
    const absence = s.train.absences[s.nextAbsence];
    if (!absence || s.freeMs < absence.dueMs) return false;
    s.nextAbsence++;
    if (absence.untilMs > s.freeMs) {
      if (s === this.lead) this.releaseAll(s.freeMs);
      s.freeMs = absence.untilMs;
      s.absent = true;
    }
    return true;
  }

  private beginsFocus(s: State): boolean {
    const run = s.train.focusRuns[s.nextFocus];
    if (!run || s.freeMs < run.dueMs || (this.rules.focus === 'together' && this.rules.ditherEvery !== null)) return false;
    s.nextFocus++;
    const pauses = run.pausesGuiding && this.rules.guiding === 'off-axis';
    const endMs = s.freeMs + run.durationMs + (pauses ? run.settleMs : 0);
    if (pauses) {
      this.pause = { startMs: s.freeMs, endMs };
      this.guidingOff.push(this.pause);
    }
    s.freeMs = endMs;
    return true;
  }

  private waitsForDither(s: State): boolean {
    const { ditherEvery } = this.rules;
    if (ditherEvery === null || !this.lead || !s.isAwaited) return false;
    if (s === this.lead) {
      if (s.sinceDither < ditherEvery) return false;
      this.ditherAsked = true;
      return true;
    }
    if (this.lead.done || this.lead.absent) return false;
    if (s.ownCount !== undefined) return s.sinceDither >= s.ownCount;
    if (this.ditherAsked) return true;
    const { lead } = this;
    const { patienceMs } = s;
    if (patienceMs === 0 || lead.waitingSinceMs !== null) return false;
    const periodMs = this.exposureMs(lead) + lead.train.turnarounds.typicalMs;
    const readyMs = lead.freeMs + Math.max(0, ditherEvery - lead.sinceDither) * periodMs;
    return readyMs > s.freeMs && readyMs - s.freeMs <= patienceMs;
  }

  /** When the guiding that another's refocus paused is back, for trains that rest meanwhile. */
  private pauseEndMs(s: State): number {
    const { pause } = this;
    return pause && s.restsInPauses && pause.startMs <= s.freeMs ? pause.endMs : -Infinity;
  }

  private exposureMs(s: State): number {
    return s.setExposureMs ?? s.train.blocks[s.block]?.exposureMs ?? 1000;
  }

  private expose(s: State): void {
    while (s.leftMs <= 0 && s.block < s.train.blocks.length - 1) {
      s.block++;
      s.leftMs += budgetMs(s.train, s.block);
      s.freeMs += s.train.blocks[s.block]?.filterMs ?? 0;
    }
    const startMs = s.freeMs;
    const askedMs = this.exposureMs(s);
    const cutMs = this.cutMs(s, startMs, startMs + askedMs);
    const endMs = cutMs ?? startMs + askedMs;
    const target = s.train.blocks[s.block]?.target;
    this.exposures[s.index]?.push({ startMs, endMs, target, cut: cutMs !== null });
    const turnaroundMs = this.draws.take(s.train.turnarounds, 'turnaround', s.index, s.frames);
    s.frames++;
    s.sinceDither++;
    s.leftMs -= askedMs;
    s.freeMs = cutMs ?? endMs + turnaroundMs;
  }

  /** The instant at which something cuts the exposure short, or `null`. */
  private cutMs(s: State, startMs: number, endMs: number): number | null {
    const coming = this.stops[this.nextStop];
    if (coming && coming.holdMs > startMs && coming.holdMs < endMs && s.shares[this.nextStop]?.cuts) return coming.holdMs;
    const own = s.train.absences[s.nextAbsence]?.cutMs;
    return own !== undefined && own > startMs && own < endMs ? own : null;
  }

  private ditherFrom(readyMs: number): void {
    const waiting = this.states.filter((s) => s.waitingSinceMs !== null);
    const beginMs = this.rules.focus === 'together' ? this.focusTogether(waiting, readyMs) : readyMs;
    const endMs = beginMs + this.draws.take(this.course.cycles, 'cycle', 0, this.cycles);
    this.motion.push({ startMs: beginMs, endMs });
    for (const s of waiting) {
      this.waitedMs[s.index] = (this.waitedMs[s.index] ?? 0) + readyMs - (s.waitingSinceMs ?? readyMs);
      this.release(s, endMs + this.draws.take(s.train.resumes, 'resume', s.index, this.cycles));
    }
    this.cycles++;
    this.restartCount();
  }

  private restartCount(): void {
    this.ditherAsked = false;
    for (const s of this.states) s.sinceDither = 0;
  }

  /** Refocuses of all waiting trains at once, when one is due: every shutter is closed, so nobody is harmed. */
  private focusTogether(waiting: readonly State[], atMs: number): number {
    const runOf = (s: State) => s.train.focusRuns[s.nextFocus];
    if (!waiting.some((s) => (runOf(s)?.dueMs ?? Infinity) <= atMs)) return atMs;
    let endMs = atMs;
    for (const s of waiting) {
      const run = runOf(s);
      if (!run || run.dueMs > atMs + TOGETHER_MS) continue;
      s.nextFocus++;
      endMs = Math.max(endMs, atMs + run.durationMs + (run.pausesGuiding && this.rules.guiding === 'off-axis' ? run.settleMs : 0));
    }
    return endMs;
  }

  private stopFrom(stop: Stop, beginMs: number): void {
    const endMs = Math.max(beginMs + stop.durationMs, stop.notBeforeMs ?? -Infinity);
    for (const s of this.states) {
      if (s.waitingSinceMs === null) continue;
      const share = s.shares[this.nextStop];
      if (share) this.waitedMs[s.index] = (this.waitedMs[s.index] ?? 0) + beginMs - s.waitingSinceMs;
      this.release(s, share ? endMs + share.resumeMs : s.waitingSinceMs);
    }
    this.finishStop(stop, beginMs);
  }

  /** A stop at its own time takes everybody, waiting or not. */
  private holdFrom(stop: Stop, beginMs: number): void {
    const endMs = beginMs + stop.durationMs;
    for (const s of this.states) {
      const share = s.shares[this.nextStop];
      if (!share) continue;
      const freeMs = Math.max(s.freeMs, endMs + (s.absent || this.isYetToBegin(s, beginMs) ? 0 : share.resumeMs));
      if (s.absent) s.freeMs = freeMs;
      else this.release(s, freeMs);
    }
    this.finishStop(stop, beginMs);
  }

  private finishStop(stop: Stop, beginMs: number): void {
    for (const { startMs, endMs } of stop.motion) this.motion.push({ startMs: beginMs + startMs, endMs: beginMs + endMs });
    for (const { startMs, endMs } of stop.guidingOff) this.guidingOff.push({ startMs: beginMs + startMs, endMs: beginMs + endMs });
    for (const s of this.states) {
      const anchor = s.shares[this.nextStop]?.anchor;
      if (anchor && !s.done) {
        s.block = anchor.block;
        s.leftMs = budgetMs(s.train, anchor.block) - anchor.framesDone * (s.train.blocks[anchor.block]?.exposureMs ?? 0);
      }
    }
    this.nextStop++;
    if (this.course.stopsResetCount) this.restartCount();
  }
}

/** Exposure time that a block of the plan asks for, ms. */
function budgetMs({ blocks }: TrainCourse, block: number): number {
  const { frames, exposureMs } = blocks[block] ?? { frames: 0, exposureMs: 0 };
  return frames * exposureMs;
}
