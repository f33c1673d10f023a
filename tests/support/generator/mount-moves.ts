/** What the mount and its guiding do to all trains: pointing, the next target, the flip, clouds, a lost guide star. */
import { expose, refocusIfDue, runCompanions, waitForGuiding } from './exposures.js';
import { CENTRE_MS, driftArcsec, SLEW_MS } from './guiding-trace.js';
import type { NightUnderway } from './night-underway.js';
import type { Scenario } from './scenario.js';

const FLIP_MS = 96_000;
const GUIDE_START_SETTLE_MS = 14_000;

/** Slew and centring; the instant of their end. */
export function point(night: NightUnderway, atMs: number): number {
  const { pilot } = night;
  night.log(atMs, pilot, 'slew-begin', {});
  night.log(atMs + SLEW_MS, pilot, 'slew-end', {});
  night.log(atMs + SLEW_MS, pilot, 'centre-begin', {});
  night.log(atMs + SLEW_MS + CENTRE_MS, pilot, 'centre-end', { ok: true });
  for (const s of night.states) night.book(s, 'pointing', SLEW_MS + CENTRE_MS);
  return atMs + SLEW_MS + CENTRE_MS;
}

/** Guiding begins and settles; the instant of their end. */
export function startGuiding(night: NightUnderway, atMs: number): number {
  night.log(atMs, night.pilot, 'guiding-begin', {});
  night.log(atMs, night.pilot, 'settling-begin', {});
  night.log(atMs + GUIDE_START_SETTLE_MS, night.pilot, 'settling-end', { ok: true });
  for (const s of night.states) night.book(s, 'guiding', GUIDE_START_SETTLE_MS);
  return atMs + GUIDE_START_SETTLE_MS;
}

/** The mount goes to the next target, when every shutter is closed. */
export function turnTo(night: NightUnderway, { plans }: NonNullable<Scenario['turns']>[number]): void {
  night.turns = night.turns.slice(1);
  runCompanions(night, night.pilot.freeMs, false);
  const beginMs = Math.max(...night.states.map((s) => s.freeMs));
  night.log(beginMs, night.pilot, 'guiding-end', { why: 'next target' });
  for (const s of night.states) night.book(s, 'partner-wait', beginMs - s.freeMs);
  const t = startGuiding(night, point(night, beginMs));
  for (const s of night.states) {
    s.train = { ...s.train, plan: plans[s.train.id] ?? s.train.plan };
    s.planIndex = 0;
    s.doneOfPlan = 0;
    s.freeMs = t;
  }
}

/** The mount turns over, when every shutter is closed. */
export function flip(night: NightUnderway): void {
  const { pilot } = night;
  night.flipMs = Infinity;
  const { flipSeconds } = night.scenario.habits ?? {};
  const flipMs = flipSeconds === undefined ? FLIP_MS : 1000 * flipSeconds;
  runCompanions(night, pilot.freeMs, false);
  const beginMs = Math.max(...night.states.map((s) => s.freeMs));
  for (const s of night.states) {
    night.book(s, 'partner-wait', beginMs - s.freeMs);
    night.book(s, 'pointing', flipMs + CENTRE_MS);
  }
  night.log(beginMs, pilot, 'guiding-end', { why: 'meridian flip' });
  night.log(beginMs, pilot, 'flip-begin', {});
  night.log(beginMs + flipMs, pilot, 'flip-end', {});
  night.log(beginMs + flipMs, pilot, 'centre-begin', {});
  night.log(beginMs + flipMs + CENTRE_MS, pilot, 'centre-end', { ok: true });
  night.pierSide = 'east';
  const t = startGuiding(night, beginMs + flipMs + CENTRE_MS);
  for (const s of night.states) s.freeMs = t;
}

/** Clouds: open shutters are aborted, everything rests, then the target is centred again. */
export function hold(night: NightUnderway, cloud: { fromMs: number; toMs: number }): void {
  night.clouds = night.clouds.slice(1);
  const { pilot } = night;
  for (const s of night.states) {
    while (s.freeMs < cloud.fromMs) {
      refocusIfDue(night, s);
      if (s !== pilot) waitForGuiding(night, s);
      expose(night, s, cloud.fromMs);
    }
  }
  // A train still reading out when the clouds came is done a moment later; the hold counts from the clouds.
  night.log(cloud.fromMs, pilot, 'hold-begin', { why: 'cloud' });
  night.log(cloud.fromMs, pilot, 'guiding-end', { why: 'cloud' });
  night.log(cloud.toMs, pilot, 'hold-end', {});
  for (const s of night.states) {
    const overhang = Math.max(0, s.freeMs - cloud.fromMs);
    // The hold outranks the tail of a readout.
    night.book(s, 'readout', -overhang);
    night.book(s, 'hold', cloud.toMs - cloud.fromMs);
  }
  const t = startGuiding(night, point(night, cloud.toMs));
  for (const s of night.states) s.freeMs = t;
}

/** The guide star is gone for a while; nobody notices but the guiding. */
export function loseStar(night: NightUnderway, atMs: number, ms: number): void {
  night.log(atMs, night.pilot, 'star-gap-begin', { why: 'signal too low' });
  night.log(atMs + ms, night.pilot, 'star-gap-end', {});
  night.guidingOff.push({ fromMs: atMs, toMs: atMs + ms, leaves: driftArcsec(ms) });
}
