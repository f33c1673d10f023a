/**
 * A night simulated with known truth: two or more trains on one mount, dithers that need all shutters closed,
 * refocuses that pause the guiding, a flip, clouds, a lost guide star.
 *
 * The truth is kept while simulating, by code that shares nothing with the program under test: every span a train
 * spends is booked as it happens, and what harmed a frame is noted by who did the harm.
 */
import { dither, forgetIdleWaits, strayDither } from './dithers.js';
import { expose, refocusIfDue, runCompanions } from './exposures.js';
import { CENTRE_MS, guidingTrace, SLEW_MS } from './guiding-trace.js';
import { flip, hold, loseStar, point, startGuiding, turnTo } from './mount-moves.js';
import { NightUnderway, type TrainState } from './night-underway.js';
import type { Scenario } from './scenario.js';
import type { Simulation } from './simulation.js';

/** By the scenario itself: what is asked of one night is several things. */
const known = new WeakMap<Scenario, Simulation>();

/** Simulates a scenario; the same one once. */
export function simulate(scenario: Scenario): Simulation {
  const simulation = known.get(scenario) ?? simulated(scenario);
  known.set(scenario, simulation);
  return simulation;
}

function simulated(scenario: Scenario): Simulation {
  const night = new NightUnderway(scenario);
  const { pilot } = night;
  const beginMs = Date.parse(scenario.begin);
  const t = startGuiding(night, point(night, beginMs));
  pilot.freeMs = t;
  for (const c of night.companions) {
    // Until it begins, a companion shares the pilot's pointing and guiding start, then idles.
    c.freeMs = t + Math.round(c.train.startOffsetMin * 60_000);
    // One that begins before the mount is at rest exposes while it points.
    if (c.train.startOffsetMin < 0) night.strays.push({ fromMs: c.freeMs, toMs: t, pixels: 1000 });
  }
  while (pilot.freeMs < night.endMs) block(night);
  const stopMs = Math.max(...night.states.map((s) => s.freeMs));
  night.log(stopMs, pilot, 'guiding-end', { why: 'session over' });
  for (const stray of scenario.strayDithers ?? []) strayDither(night, Date.parse(stray.at), stray.pixels);
  forgetIdleWaits(night);
  for (const lost of scenario.starLost) loseStar(night, Date.parse(lost.at), lost.seconds * 1000);
  return {
    events: night.events.sort((a, b) => a.atMs - b.atMs),
    frames: night.frames,
    cycles: night.cycles,
    samples: guidingTrace(scenario, night.guidingOff, night.random, beginMs + SLEW_MS + CENTRE_MS, stopMs),
    booked: night.booked,
    guidingOff: night.guidingOff,
    strays: night.strays,
  };
}

/** One block of the pilot: its frames up to the dither, then whatever needs all trains idle. */
function block(night: NightUnderway): void {
  const { pilot } = night;
  const cloud = night.clouds[0];
  const [turn] = night.turns;
  if (turn && pilot.freeMs >= Date.parse(turn.at)) {
    turnTo(night, turn);
    return;
  }
  for (let i = 0; i < night.scenario.ditherEvery; i++) {
    if (pilot.freeMs >= night.endMs) break;
    if (cloud && nextSpanMeets(pilot, cloud.fromMs)) {
      hold(night, cloud);
      return;
    }
    if (isFlipDue(night)) {
      flip(night);
      return;
    }
    refocusIfDue(night, pilot);
    expose(night, pilot);
  }
  if (pilot.freeMs >= night.endMs) {
    runCompanions(night, night.endMs, false);
    return;
  }
  if (isFlipDue(night)) {
    flip(night);
    return;
  }
  dither(night);
  if (pilot.freeMs >= night.flipMs) flip(night);
}

/** Whether the mount turns over as soon as the pilot's shutter is closed. */
function isFlipDue({ pilot, flipMs, scenario }: NightUnderway): boolean {
  return pilot.freeMs >= flipMs && scenario.habits?.flipsAtDither !== true;
}

function nextSpanMeets(state: TrainState, atMs: number): boolean {
  const { seconds } = state.train.plan[state.planIndex]!;
  // Filter change and refocus are short beside a sub; a margin keeps the abort inside an exposure.
  return state.freeMs + 150_000 + seconds * 1000 > atMs;
}
