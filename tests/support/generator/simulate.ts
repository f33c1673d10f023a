/**
 * A night simulated with known truth: two or more trains on one mount, dithers that need all shutters closed,
 * refocuses that pause the guiding, a flip, clouds, a lost guide star.
 *
 * The truth is kept while simulating, by code that shares nothing with the program under test: every span a train
 * spends is booked as it happens, and what harmed a frame is noted by who did the harm.
 */
import { CENTRE_MS, driftArcsec, guidingTrace, SLEW_MS } from './guiding-trace.js';
import { seeded, type Random } from './random.js';
import type { Scenario, ScenarioTrain } from './scenario.js';
import { frameName, type GuidingOff, type SimulatedCycle, type SimulatedEvent } from './simulation.js';
import type { SimulatedFrame, Simulation } from './simulation.js';

interface TrainState {
  train: ScenarioTrain;
  freeMs: number;
  planIndex: number;
  doneOfPlan: number;
  frames: number;
  filter: string | null;
  focusPosition: number;
  sinceFocusMs: number;
}

const FLIP_MS = 96_000;
const GUIDE_START_SETTLE_MS = 14_000;
/** What part of an aborted exposure is over when it is aborted. */
const ABORTED_SHARE = 0.4;

/** Simulates a scenario. */
export function simulate(scenario: Scenario): Simulation {
  return new Simulator(scenario).run();
}

class Simulator {
  private readonly random: Random;
  private readonly events: SimulatedEvent[] = [];
  private readonly frames: SimulatedFrame[] = [];
  private readonly cycles: SimulatedCycle[] = [];
  private readonly strays: { fromMs: number; toMs: number; pixels: number }[] = [];
  private readonly guidingOff: GuidingOff[] = [];
  private readonly states: TrainState[];
  private readonly pilot: TrainState;
  private readonly companions: TrainState[];
  private readonly endMs: number;
  private readonly booked: Record<string, Record<string, number>> = {};
  private pierSide: 'east' | 'west' = 'west';
  private flipMs: number;
  private clouds: { fromMs: number; toMs: number }[];
  private turns: NonNullable<Scenario['turns']>;
  private aborts: NonNullable<Scenario['aborts']>;
  /** Guiding paused by the pilot's refocus: companions do not begin an exposure within. */
  private pauses: { fromMs: number; toMs: number; settledMs: number }[] = [];
  /** Refocuses of all trains together that are done. */
  private refocused = 0;

  constructor(private readonly scenario: Scenario) {
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
    }));
    this.pilot = this.states.find((s) => s.train.role === 'pilot')!;
    this.companions = this.states.filter((s) => s !== this.pilot);
    this.endMs = Date.parse(scenario.end);
    this.flipMs = scenario.flipAt === undefined ? Infinity : Date.parse(scenario.flipAt);
    this.clouds = scenario.clouds.map((c) => ({ fromMs: Date.parse(c.from), toMs: Date.parse(c.to) }));
    this.turns = scenario.turns ?? [];
    this.aborts = scenario.aborts ?? [];
    for (const s of this.states) this.booked[s.train.id] = {};
  }

  run(): Simulation {
    const { pilot } = this;
    const beginMs = Date.parse(this.scenario.begin);
    let t = this.point(beginMs);
    t = this.startGuiding(t);
    pilot.freeMs = t;
    for (const c of this.companions) {
      // Until it begins, a companion shares the pilot's pointing and guiding start, then idles.
      c.freeMs = t + Math.round(c.train.startOffsetMin * 60_000);
      // One that begins before the mount is at rest exposes while it points.
      if (c.train.startOffsetMin < 0) this.strays.push({ fromMs: c.freeMs, toMs: t, pixels: 1000 });
    }
    while (pilot.freeMs < this.endMs) this.block();
    const stopMs = Math.max(...this.states.map((s) => s.freeMs));
    this.log(stopMs, this.pilot, 'guiding-end', { why: 'session over' });
    for (const stray of this.scenario.strayDithers ?? []) this.strayDither(Date.parse(stray.at), stray.pixels);
    this.forgetIdleWaits();
    for (const lost of this.scenario.starLost) this.loseStar(Date.parse(lost.at), lost.seconds * 1000);
    return {
      events: this.events.sort((a, b) => a.atMs - b.atMs),
      frames: this.frames,
      cycles: this.cycles,
      samples: guidingTrace(this.scenario, this.guidingOff, this.random, beginMs + SLEW_MS + CENTRE_MS, stopMs),
      booked: this.booked,
      guidingOff: this.guidingOff,
      strays: this.strays,
    };
  }

  /** One block of the pilot: its frames up to the dither, then whatever needs all trains idle. */
  private block(): void {
    const { pilot } = this;
    const cloud = this.clouds[0];
    const [turn] = this.turns;
    if (turn && pilot.freeMs >= Date.parse(turn.at)) {
      this.turnTo(turn);
      return;
    }
    for (let i = 0; i < this.scenario.ditherEvery; i++) {
      if (pilot.freeMs >= this.endMs) break;
      if (cloud && this.nextSpanMeets(pilot, cloud.fromMs)) {
        this.hold(cloud);
        return;
      }
      if (pilot.freeMs >= this.flipMs) {
        this.flip();
        return;
      }
      this.refocusIfDue(pilot);
      this.expose(pilot);
    }
    if (pilot.freeMs >= this.endMs) {
      this.runCompanions(this.endMs, false);
      return;
    }
    if (pilot.freeMs >= this.flipMs) {
      this.flip();
      return;
    }
    this.dither();
  }

  private nextSpanMeets(state: TrainState, atMs: number): boolean {
    const { seconds } = state.train.plan[state.planIndex]!;
    // Filter change and refocus are short beside a sub; a margin keeps the abort inside an exposure.
    return state.freeMs + 150_000 + seconds * 1000 > atMs;
  }

  private dither(): void {
    const { pilot } = this;
    const { habits = {} } = this.scenario;
    const requestMs = pilot.freeMs;
    if (habits.dithersUnasked === true) {
      this.ditherUnasked(requestMs);
      return;
    }
    this.runCompanions(requestMs, true);
    const ready: Record<string, number> = {};
    // One that has not begun is no part of the dither.
    const taking = this.states.filter((s) => s.frames > 0 || s.freeMs <= requestMs);
    for (const s of taking) {
      ready[s.train.id] = s.freeMs;
      this.log(s.freeMs, s, 'dither-ready', {});
    }
    const beginMs = Math.max(...Object.values(ready));
    const moveMs = this.random.whole(2200, 4800);
    const settleMs = this.random.whole(7000, 19_000) + 1000 * (habits.settleExtraSeconds ?? 0);
    this.log(beginMs, pilot, 'dither-begin', { pixels: Number((4 + 3 * this.random.next()).toFixed(1)) });
    this.log(beginMs + moveMs, pilot, 'dither-end', {});
    this.log(beginMs + moveMs, pilot, 'settling-begin', {});
    this.log(beginMs + moveMs + settleMs, pilot, 'settling-end', { ok: true });
    for (const s of taking) {
      this.book(s, 'dither-wait', beginMs - s.freeMs);
      this.book(s, 'dither', moveMs + settleMs);
      s.freeMs = beginMs + moveMs + settleMs;
    }
    const last = Object.entries(ready).reduce((a, b) => (b[1] > a[1] ? b : a));
    this.cycles.push({ beginMs, readyMs: ready, holder: taking.length > 1 ? last[0] : null, moveMs, settleMs });
    if (habits.refocusTogether === true) this.refocusTogether();
  }

  /** The mount moves when the pilot is ready: companions are neither asked nor waited for. */
  private ditherUnasked(requestMs: number): void {
    const { pilot } = this;
    this.runCompanions(requestMs, false);
    const moveMs = this.random.whole(2200, 4800);
    const settleMs = this.random.whole(7000, 19_000);
    const settledMs = requestMs + moveMs + settleMs;
    this.log(requestMs, pilot, 'dither-ready', {});
    this.log(requestMs, pilot, 'dither-begin', { pixels: Number((4 + 3 * this.random.next()).toFixed(1)) });
    this.log(requestMs + moveMs, pilot, 'dither-end', {});
    this.log(requestMs + moveMs, pilot, 'settling-begin', {});
    this.log(settledMs, pilot, 'settling-end', { ok: true });
    this.book(pilot, 'dither', moveMs + settleMs);
    this.strays.push({ fromMs: requestMs, toMs: settledMs, pixels: 5 });
    this.cycles.push({ beginMs: requestMs, readyMs: { [pilot.train.id]: requestMs }, holder: null, moveMs, settleMs });
    pilot.freeMs = settledMs;
  }

  /** All trains focus while their shutters are closed for a dither, when the pilot's count of frames says so. */
  private refocusTogether(): void {
    const { pilot } = this;
    const due = pilot.train.refocusAfter.filter((count) => count <= pilot.frames).length;
    if (due <= this.refocused) return;
    this.refocused = due;
    const fromMs = pilot.freeMs;
    for (const s of this.companions) if (s.train.refocusAfter.length > 0) this.refocus(s);
    this.refocus(pilot);
    const doneMs = Math.max(...this.states.map((s) => s.freeMs));
    for (const s of this.states) {
      this.book(s, 'partner-wait', doneMs - s.freeMs);
      s.freeMs = doneMs;
    }
    // Nobody exposed meanwhile.
    this.pauses = this.pauses.filter((pause) => pause.fromMs < fromMs);
  }

  /** A train that exposes no more waited for nothing. */
  private forgetIdleWaits(): void {
    this.cycles.forEach((cycle, i) => {
      const ready = Object.entries(cycle.readyMs).filter(([train, readyMs]) => {
        const goesOn = this.frames.some((f) => f.train === train && f.beginMs >= cycle.beginMs);
        const state = this.states.find((s) => s.train.id === train);
        if (!goesOn && state) this.book(state, 'dither-wait', readyMs - cycle.beginMs);
        return goesOn;
      });
      if (ready.length === Object.keys(cycle.readyMs).length) return;
      const [last] = [...ready].sort(([, a], [, b]) => b - a);
      const holder = ready.length > 1 && last ? last[0] : null;
      this.cycles[i] = { ...cycle, readyMs: Object.fromEntries(ready), holder };
    });
  }

  /** Lets the companions expose until they are free at or after `untilMs`; patient ones stop early. */
  private runCompanions(untilMs: number, patient: boolean): void {
    for (const c of this.companions) {
      for (;;) {
        if (c.freeMs >= untilMs || c.freeMs >= this.endMs) break;
        if (patient && untilMs - c.freeMs <= c.train.patienceMs) break;
        this.refocusIfDue(c);
        this.waitForGuiding(c);
        if (c.freeMs >= untilMs) break;
        this.expose(c);
      }
    }
  }

  private waitForGuiding(c: TrainState): void {
    const pause = this.pauses.find((p) => c.freeMs >= p.fromMs && c.freeMs < p.settledMs);
    if (!pause) return;
    this.book(c, 'partner-wait', Math.max(0, pause.toMs - c.freeMs));
    this.book(c, 'guiding', pause.settledMs - Math.max(pause.toMs, c.freeMs));
    c.freeMs = pause.settledMs;
  }

  private expose(s: TrainState, abortMs = Infinity): void {
    const step = s.train.plan[s.planIndex]!;
    if (s.filter !== step.filter) {
      const ms = s.filter === null ? 0 : this.random.whole(3200, 6400);
      if (ms > 0) {
        this.log(s.freeMs, s, 'filter-begin', { to: step.filter });
        this.log(s.freeMs + ms, s, 'filter-end', {});
        this.book(s, 'filter', ms);
        s.freeMs += ms;
      }
      const isChange = s.filter !== null;
      s.filter = step.filter;
      if (isChange && s.train.refocusOnFilterChange === true) this.refocus(s);
    }
    const askedMs = step.seconds * 1000;
    const beginMs = s.freeMs;
    const endMs = Math.min(beginMs + askedMs, abortMs, this.abortOf(s, beginMs, askedMs));
    const aborted = endMs < beginMs + askedMs;
    s.frames++;
    const hours = (beginMs - Date.parse(this.scenario.begin)) / 3_600_000;
    const drift = (beginMs - s.sinceFocusMs) / 3_600_000;
    const frame: SimulatedFrame = {
      train: s.train.id,
      target: step.target,
      filter: step.filter,
      beginMs,
      endMs,
      askedMs,
      aborted,
      focusPosition: s.focusPosition,
      temperatureC: Number((14 - 0.8 * hours + this.random.normal(0, 0.05)).toFixed(2)),
      starSize: Number((2.1 + 0.09 * Math.min(drift, 4) + this.random.normal(0, 0.06)).toFixed(2)),
      number: s.frames,
      pierSide: this.pierSide,
    };
    this.frames.push(frame);
    this.log(beginMs, s, 'exposure-begin', { target: step.target, filter: step.filter, seconds: step.seconds });
    this.log(endMs, s, aborted ? 'exposure-abort' : 'exposure-end', {});
    if (aborted) {
      s.freeMs = endMs;
      return;
    }
    const readoutMs = s.train.readoutMs + this.random.whole(0, 400);
    this.log(endMs + readoutMs, s, 'frame-saved', { file: frameName(frame) });
    this.book(s, 'readout', readoutMs);
    s.freeMs = endMs + readoutMs;
    if (++s.doneOfPlan >= step.count) {
      s.doneOfPlan = 0;
      s.planIndex = (s.planIndex + 1) % s.train.plan.length;
    }
  }

  /** When somebody ends an exposure before its time; each abort befalls one. */
  private abortOf(s: TrainState, beginMs: number, askedMs: number): number {
    const due = this.aborts.find(({ train, at }) => train === s.train.id && Date.parse(at) <= beginMs);
    if (due === undefined) return Infinity;
    this.aborts = this.aborts.filter((one) => one !== due);
    return beginMs + Math.round(ABORTED_SHARE * askedMs);
  }

  private refocusIfDue(s: TrainState): void {
    if (this.scenario.habits?.refocusTogether === true || !s.train.refocusAfter.includes(s.frames)) return;
    // Once per count: a block that is entered again must not focus again.
    if (s.sinceFocusMs === s.freeMs) return;
    this.refocus(s);
  }

  private refocus(s: TrainState): void {
    const isPilot = s === this.pilot;
    const ms = this.random.whole(82_000, 118_000);
    const drawn = Number((2.35 + 0.15 * this.random.next()).toFixed(2));
    const before = this.scenario.habits?.sizeBeforeFocus ?? drawn;
    const fromMs = s.freeMs;
    if (isPilot) this.log(fromMs, s, 'guiding-rest-begin', { why: 'refocus' });
    this.log(fromMs, s, 'focus-begin', { why: 'star size' });
    s.focusPosition -= this.random.whole(12, 40);
    const toMs = fromMs + ms;
    this.log(toMs, s, 'focus-end', {
      ok: true,
      sizeBefore: before,
      sizeAfter: Number((2.08 + 0.06 * this.random.next()).toFixed(2)),
      position: s.focusPosition,
      temperature: Number((14 - (0.8 * (toMs - Date.parse(this.scenario.begin))) / 3_600_000).toFixed(2)),
    });
    this.book(s, 'focus', ms);
    s.freeMs = toMs;
    if (isPilot) {
      this.log(toMs, s, 'guiding-rest-end', {});
      this.log(toMs, s, 'settling-begin', {});
      const settledMs = toMs + this.random.whole(6000, 11_000);
      this.log(settledMs, s, 'settling-end', { ok: true });
      this.book(s, 'guiding', settledMs - toMs);
      s.freeMs = settledMs;
      this.pauses.push({ fromMs, toMs, settledMs });
      this.guidingOff.push(
        { fromMs, toMs, causedBy: s.train.id, leaves: driftArcsec(ms) },
        { fromMs: toMs, toMs: settledMs, causedBy: s.train.id, returns: driftArcsec(ms) },
      );
    }
    s.sinceFocusMs = s.freeMs;
  }

  private point(atMs: number): number {
    const { pilot } = this;
    this.log(atMs, pilot, 'slew-begin', {});
    this.log(atMs + SLEW_MS, pilot, 'slew-end', {});
    this.log(atMs + SLEW_MS, pilot, 'centre-begin', {});
    this.log(atMs + SLEW_MS + CENTRE_MS, pilot, 'centre-end', { ok: true });
    for (const s of this.states) this.book(s, 'pointing', SLEW_MS + CENTRE_MS);
    return atMs + SLEW_MS + CENTRE_MS;
  }

  private startGuiding(atMs: number): number {
    this.log(atMs, this.pilot, 'guiding-begin', {});
    this.log(atMs, this.pilot, 'settling-begin', {});
    this.log(atMs + GUIDE_START_SETTLE_MS, this.pilot, 'settling-end', { ok: true });
    for (const s of this.states) this.book(s, 'guiding', GUIDE_START_SETTLE_MS);
    return atMs + GUIDE_START_SETTLE_MS;
  }

  /** The mount goes to the next target, when every shutter is closed. */
  private turnTo({ plans }: NonNullable<Scenario['turns']>[number]): void {
    this.turns = this.turns.slice(1);
    this.runCompanions(this.pilot.freeMs, false);
    const beginMs = Math.max(...this.states.map((s) => s.freeMs));
    this.log(beginMs, this.pilot, 'guiding-end', { why: 'next target' });
    for (const s of this.states) this.book(s, 'partner-wait', beginMs - s.freeMs);
    const t = this.startGuiding(this.point(beginMs));
    for (const s of this.states) {
      s.train = { ...s.train, plan: plans[s.train.id] ?? s.train.plan };
      s.planIndex = 0;
      s.doneOfPlan = 0;
      s.freeMs = t;
    }
  }

  private flip(): void {
    const { pilot } = this;
    this.flipMs = Infinity;
    const { flipSeconds } = this.scenario.habits ?? {};
    const flipMs = flipSeconds === undefined ? FLIP_MS : 1000 * flipSeconds;
    this.runCompanions(pilot.freeMs, false);
    const beginMs = Math.max(...this.states.map((s) => s.freeMs));
    for (const s of this.states) {
      this.book(s, 'partner-wait', beginMs - s.freeMs);
      this.book(s, 'pointing', flipMs + CENTRE_MS);
    }
    this.log(beginMs, pilot, 'guiding-end', { why: 'meridian flip' });
    this.log(beginMs, pilot, 'flip-begin', {});
    this.log(beginMs + flipMs, pilot, 'flip-end', {});
    this.log(beginMs + flipMs, pilot, 'centre-begin', {});
    this.log(beginMs + flipMs + CENTRE_MS, pilot, 'centre-end', { ok: true });
    this.pierSide = 'east';
    const t = this.startGuiding(beginMs + flipMs + CENTRE_MS);
    for (const s of this.states) s.freeMs = t;
  }

  /** Clouds: open shutters are aborted, everything rests, then the target is centred again. */
  private hold(cloud: { fromMs: number; toMs: number }): void {
    this.clouds = this.clouds.slice(1);
    const { pilot } = this;
    for (const s of this.states) {
      while (s.freeMs < cloud.fromMs) {
        this.refocusIfDue(s);
        if (s !== pilot) this.waitForGuiding(s);
        this.expose(s, cloud.fromMs);
      }
    }
    // A train still reading out when the clouds came is done a moment later; the hold counts from the clouds.
    this.log(cloud.fromMs, pilot, 'hold-begin', { why: 'cloud' });
    this.log(cloud.fromMs, pilot, 'guiding-end', { why: 'cloud' });
    this.log(cloud.toMs, pilot, 'hold-end', {});
    for (const s of this.states) {
      const overhang = Math.max(0, s.freeMs - cloud.fromMs);
      // The hold outranks the tail of a readout.
      this.book(s, 'readout', -overhang);
      this.book(s, 'hold', cloud.toMs - cloud.fromMs);
    }
    let t = this.point(cloud.toMs);
    t = this.startGuiding(t);
    for (const s of this.states) s.freeMs = t;
  }

  private strayDither(atMs: number, pixels: number): void {
    const movedMs = atMs + 1800;
    const settledMs = movedMs + 3200;
    this.log(atMs, this.pilot, 'dither-begin', { pixels });
    this.log(movedMs, this.pilot, 'dither-end', {});
    this.log(movedMs, this.pilot, 'settling-begin', {});
    this.log(settledMs, this.pilot, 'settling-end', { ok: true });
    this.strays.push({ fromMs: atMs, toMs: settledMs, pixels });
  }

  private loseStar(atMs: number, ms: number): void {
    this.log(atMs, this.pilot, 'star-gap-begin', { why: 'signal too low' });
    this.log(atMs + ms, this.pilot, 'star-gap-end', {});
    this.guidingOff.push({ fromMs: atMs, toMs: atMs + ms, leaves: driftArcsec(ms) });
  }

  private log(atMs: number, s: TrainState, event: string, fields: Record<string, string | number | boolean>): void {
    this.events.push({ atMs, train: s.train.id, event, ...fields });
  }

  private book(s: TrainState, account: string, ms: number): void {
    const own = this.booked[s.train.id]!;
    own[account] = (own[account] ?? 0) + ms;
  }
}
