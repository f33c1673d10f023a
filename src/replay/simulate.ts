/**
 * The discrete-event model: trains on one mount, controlled by rules. At each step the train that is free first decides
 * what it does next; waiting trains are released by the dither or stop they wait for.
 */
import type { Interval } from '../model/index.js';
import type { Course, ReplayRules, Stop } from './course.js';
import type { Draws } from './draws.js';
import { focusTogether, isDitherDue, isWaitingForDither } from './meeting.js';
import { RunningTrain, type SimulatedExposure } from './running-train.js';

/** A replayed night, before anything in it is judged. */
export interface Run {
  /** By train, in the course's order; sorted by start. */
  readonly exposures: readonly (readonly SimulatedExposure[])[];
  readonly waitedMs: readonly number[];
  readonly dithers: number;
  /** Mount motion and unguided time caused by the rules. */
  readonly motion: readonly Interval[];
  readonly guidingOff: readonly Interval[];
}

/** Upper limit on steps; a replay that exceeds it is in an endless loop. */
const MAX_STEPS = 200_000;

/**
 * Runs a night.
 *
 * @param course the night's data
 * @param rules its rules
 * @param draws the source of the durations
 * @param spent a discarded run of the course: its exposures are reused
 */
export function simulate(course: Course, rules: ReplayRules, draws: Draws, spent?: Run): Run {
  return new Simulation(course, rules, draws, spent).run();
}

class Simulation {
  private readonly trains: readonly RunningTrain[];
  private readonly lead: RunningTrain | undefined;
  private readonly motion: Interval[] = [];
  private readonly guidingOff: Interval[] = [];
  /** With the instant of a stop that waits for nobody; ∞ if it waits. */
  private readonly stops: readonly { readonly stop: Stop; readonly holdMs: number }[];
  /** The latest refocus that paused guiding. */
  private pause: Interval | undefined;
  private nextStop = 0;
  private dithers = 0;
  private ditherAsked = false;

  constructor(
    private readonly course: Course,
    private readonly rules: ReplayRules,
    private readonly draws: Draws,
    spent?: Run,
  ) {
    this.trains = course.trains.map(
      (train, index) => new RunningTrain(train, index, course, rules, spent?.exposures[index]),
    );
    this.lead = this.trains.find((t) => t.course.id === rules.lead);
    // Events with their own time are shifted in resampled runs by up to half an exposure either way: otherwise a rule
    // would gain only because clouds happened to come between two of its exposures.
    this.stops = course.stops.map((stop, i) => ({
      stop,
      holdMs: stop.atItsTime ? stop.beginMs + draws.shiftMs(course.longestMs, i) : Infinity,
    }));
  }

  run(): Run {
    for (let steps = 0; steps < MAX_STEPS; steps++) {
      const next = this.nextFree();
      if (this.resolveWaits(next)) continue;
      if (!next) break;
      this.decide(next);
    }
    const { motion, guidingOff, dithers } = this;
    return {
      exposures: this.trains.map((t) => t.exposures),
      waitedMs: this.trains.map((t) => t.waitedMs),
      dithers,
      motion,
      guidingOff,
    };
  }

  private nextFree(): RunningTrain | undefined {
    let next: RunningTrain | undefined;
    for (const t of this.trains)
      if (!t.done && t.waitingSinceMs === null && (!next || t.freeMs < next.freeMs)) next = t;
    return next;
  }

  /** Runs what the waiting trains wait for, when all required trains are there, and the stop that waits for nobody. */
  private resolveWaits(next: RunningTrain | undefined): boolean {
    const coming = this.stops[this.nextStop];
    const holdMs = coming?.holdMs ?? Infinity;
    const sinceMs = this.waitingSinceMs();
    if (sinceMs > -Infinity && sinceMs < holdMs) {
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

  /** When the last of the waiting trains began to wait; −∞ if none waits. */
  private waitingSinceMs(): number {
    let latest = -Infinity;
    for (const t of this.trains) if (t.waitingSinceMs !== null && t.waitingSinceMs > latest) latest = t.waitingSinceMs;
    return latest;
  }

  private isStopMet(sinceMs: number): boolean {
    return (
      this.trains.every((t) => t.shareOf(this.nextStop) === undefined || !t.isMissed(sinceMs)) &&
      this.trains.some((t) => t.waitingSinceMs !== null && this.restsForStop(t, t.waitingSinceMs))
    );
  }

  private isDitherMet(sinceMs: number): boolean {
    return this.trains.every((t) => !t.isAwaited || !t.isMissed(sinceMs));
  }

  private restsForStop(t: RunningTrain, atMs: number): boolean {
    const share = t.shareOf(this.nextStop);
    return share !== undefined && atMs >= share.dueMs && this.stops[this.nextStop]?.holdMs === Infinity;
  }

  /** Releases the waiting trains without what they waited for. */
  private releaseAll(atMs = -Infinity): void {
    for (const t of this.trains) if (t.waitingSinceMs !== null) t.release(Math.max(atMs, t.waitingSinceMs));
  }

  private decide(t: RunningTrain): void {
    const atMs = t.freeMs;
    t.absent = false;
    if (atMs >= t.course.endMs) {
      t.done = true;
    } else if (t.beginAbsence()) {
      if (t === this.lead && t.absent) this.releaseAll(atMs);
    } else if (t.focusRun?.place !== undefined || !this.beginsFocus(t)) {
      const pauseEndMs = this.pauseEndMs(t);
      if (this.restsForStop(t, atMs) || this.waitsForDither(t)) t.waitingSinceMs = atMs;
      else if (this.beginsFocus(t)) return;
      else if (pauseEndMs > atMs) t.freeMs = pauseEndMs;
      else t.expose(this.cutsAtMs(t), this.draws, this.dithers);
    }
  }

  /** When the next stop cuts the train's open shutter; ∞ where it does not. */
  private cutsAtMs(t: RunningTrain): number {
    return t.shareOf(this.nextStop)?.cuts ? (this.stops[this.nextStop]?.holdMs ?? Infinity) : Infinity;
  }

  private beginsFocus(t: RunningTrain): boolean {
    const run = t.focusRun;
    const { ditherEvery } = this.rules;
    if (!run || !t.isFocusDue(ditherEvery) || (this.rules.focus === 'together' && ditherEvery !== null)) return false;
    t.finishFocus();
    const changesFilter = typeof run.place === 'object';
    if (changesFilter) t.enterBlock();
    const pauses = run.pausesGuiding && this.rules.guiding === 'off-axis';
    const endMs = t.freeMs + run.durationMs + (pauses ? run.settleMs : 0);
    if (pauses) {
      this.pause = { startMs: t.freeMs, endMs };
      this.guidingOff.push(this.pause);
    }
    t.freeMs = endMs;
    // Filter, focus and exposure are one step of a plan: nothing comes between.
    if (changesFilter) t.expose(this.cutsAtMs(t), this.draws, this.dithers);
    return true;
  }

  private waitsForDither(t: RunningTrain): boolean {
    if (t === this.lead && isDitherDue(t, this.rules)) this.ditherAsked = true;
    return isWaitingForDither(t, { lead: this.lead, rules: this.rules, isAsked: this.ditherAsked });
  }

  /** When guiding paused by another's refocus is back, for trains that rest meanwhile. */
  private pauseEndMs(t: RunningTrain): number {
    const { pause } = this;
    return pause && t.restsInPauses && pause.startMs <= t.freeMs ? pause.endMs : -Infinity;
  }

  private ditherFrom(readyMs: number): void {
    const waiting = this.trains.filter((t) => t.waitingSinceMs !== null);
    const beginMs = this.rules.focus === 'together' ? focusTogether(waiting, readyMs, this.rules) : readyMs;
    const endMs = beginMs + this.draws.take(this.course.cycles, 'cycle', 0, this.dithers);
    this.motion.push({ startMs: beginMs, endMs });
    for (const t of waiting) {
      t.waitedMs += readyMs - (t.waitingSinceMs ?? readyMs);
      t.release(endMs + this.draws.take(t.course.resumes, 'resume', t.index, this.dithers));
    }
    this.dithers++;
    this.restartCount();
  }

  private restartCount(): void {
    this.ditherAsked = false;
    for (const t of this.trains) t.sinceDither = 0;
  }

  private stopFrom(stop: Stop, beginMs: number): void {
    const endMs = Math.max(beginMs + stop.durationMs, stop.notBeforeMs ?? -Infinity);
    for (const t of this.trains) {
      if (t.waitingSinceMs === null) continue;
      const share = t.shareOf(this.nextStop);
      if (share) t.waitedMs += beginMs - t.waitingSinceMs;
      t.release(share ? endMs + share.resumeMs : t.waitingSinceMs);
    }
    this.finishStop(stop, beginMs);
  }

  /** A stop at its own time affects everybody, waiting or not. */
  private holdFrom(stop: Stop, beginMs: number): void {
    const endMs = beginMs + stop.durationMs;
    for (const t of this.trains) {
      const share = t.shareOf(this.nextStop);
      if (!share) continue;
      const freeMs = Math.max(t.freeMs, endMs + (t.absent || t.isYetToBegin(beginMs) ? 0 : share.resumeMs));
      if (t.absent) t.freeMs = freeMs;
      else t.release(freeMs);
    }
    this.finishStop(stop, beginMs);
  }

  private finishStop(stop: Stop, beginMs: number): void {
    const at = ({ startMs, endMs }: Interval): Interval => ({ startMs: beginMs + startMs, endMs: beginMs + endMs });
    this.motion.push(...stop.motion.map(at));
    this.guidingOff.push(...stop.guidingOff.map(at));
    for (const t of this.trains) {
      const anchor = t.shareOf(this.nextStop)?.anchor;
      if (anchor && !t.done) t.goTo(anchor);
    }
    this.nextStop++;
    if (this.course.stopsResetCount) this.restartCount();
  }
}
