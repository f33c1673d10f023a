/** What a train does between two things that need the mount: exposures, filters, refocuses, and waiting for the guiding. */
import { driftArcsec } from './guiding-trace.js';
import type { NightUnderway, TrainState } from './night-underway.js';
import { frameName, type SimulatedFrame } from './simulation.js';

/** Stars of a focused train, px, and how fast they grow after it, px an hour. */
export const SMALL_PX = 2.1;
const GROWTH_PX_PER_HOUR = 0.09;
/** What part of an aborted exposure is over when it is aborted. */
const ABORTED_SHARE = 0.4;

/** Lets the companions expose until they are free at or after `untilMs`; patient ones stop early. */
export function runCompanions(night: NightUnderway, untilMs: number, patient: boolean): void {
  for (const c of night.companions) {
    for (;;) {
      if (c.freeMs >= untilMs || c.freeMs >= night.endMs) break;
      if (patient && untilMs - c.freeMs <= c.train.patienceMs) break;
      refocusIfDue(night, c);
      waitForGuiding(night, c);
      if (c.freeMs >= untilMs) break;
      expose(night, c);
    }
  }
}

/** A companion does not begin an exposure while the guiding rests. */
export function waitForGuiding(night: NightUnderway, c: TrainState): void {
  const pause = night.pauses.find((p) => c.freeMs >= p.fromMs && c.freeMs < p.settledMs);
  if (!pause) return;
  night.book(c, 'partner-wait', Math.max(0, pause.toMs - c.freeMs));
  night.book(c, 'guiding', pause.settledMs - Math.max(pause.toMs, c.freeMs));
  c.freeMs = pause.settledMs;
}

/** The next exposure of a train's plan, with the filter change before it and the readout after. */
export function expose(night: NightUnderway, s: TrainState, abortMs = Infinity): void {
  s.freeMs += idleMs(night, s);
  const step = s.train.plan[s.planIndex]!;
  if (s.filter !== step.filter) {
    const ms = s.filter === null ? 0 : night.random.whole(3200, 6400);
    if (ms > 0) {
      night.log(s.freeMs, s, 'filter-begin', { to: step.filter });
      night.log(s.freeMs + ms, s, 'filter-end', {});
      night.book(s, 'filter', ms);
      s.freeMs += ms;
    }
    const isChange = s.filter !== null;
    s.filter = step.filter;
    if (isChange && s.train.refocusOnFilterChange === true) refocus(night, s);
  }
  const askedMs = step.seconds * 1000;
  const beginMs = s.freeMs;
  const endMs = Math.min(beginMs + askedMs, abortMs, abortOf(night, s, beginMs, askedMs));
  const aborted = endMs < beginMs + askedMs;
  s.frames++;
  const hours = (beginMs - Date.parse(night.scenario.begin)) / 3_600_000;
  const frame: SimulatedFrame = {
    train: s.train.id,
    target: step.target,
    filter: step.filter,
    beginMs,
    endMs,
    askedMs,
    aborted,
    focusPosition: s.focusPosition,
    temperatureC: Number((14 - 0.8 * hours + night.random.normal(0, 0.05)).toFixed(2)),
    starSize: Number((focusedSize(night, s, beginMs) + night.random.normal(0, 0.06)).toFixed(2)),
    number: s.frames,
    pierSide: night.pierSide,
  };
  night.frames.push(frame);
  night.log(beginMs, s, 'exposure-begin', { target: step.target, filter: step.filter, seconds: step.seconds });
  night.log(endMs, s, aborted ? 'exposure-abort' : 'exposure-end', {});
  if (aborted) {
    s.freeMs = endMs;
    return;
  }
  const readoutMs = s.train.readoutMs + night.random.whole(0, 400);
  night.log(endMs + readoutMs, s, 'frame-saved', { file: frameName(frame) });
  night.book(s, 'readout', readoutMs);
  s.freeMs = endMs + readoutMs;
  if (++s.doneOfPlan >= step.count) {
    s.doneOfPlan = 0;
    s.planIndex = (s.planIndex + 1) % s.train.plan.length;
  }
}

/** How long the train does nothing now; nobody knows why. */
function idleMs(night: NightUnderway, s: TrainState): number {
  const due = night.idles.find(({ train, at }) => train === s.train.id && Date.parse(at) <= s.freeMs);
  if (due === undefined) return 0;
  night.idles = night.idles.filter((one) => one !== due);
  return due.minutes * 60_000;
}

/** How large stars are by the state of the focus, px. */
function focusedSize({ scenario }: NightUnderway, state: TrainState, atMs: number): number {
  const { train, sinceFocusMs, worsePx } = state;
  const { focus } = train;
  if (focus === undefined)
    return SMALL_PX + worsePx + GROWTH_PX_PER_HOUR * Math.min((atMs - sinceFocusMs) / 3_600_000, 4);
  const hours = (atMs - Math.max(sinceFocusMs, Date.parse(scenario.begin))) / 3_600_000;
  return SMALL_PX + worsePx + (sinceFocusMs === 0 ? focus.unfocusedPx : 0) + focus.growthPerHour * hours;
}

/** When somebody ends an exposure before its time; each abort befalls one. */
function abortOf(night: NightUnderway, s: TrainState, beginMs: number, askedMs: number): number {
  const due = night.aborts.find(({ train, at }) => train === s.train.id && Date.parse(at) <= beginMs);
  if (due === undefined) return Infinity;
  night.aborts = night.aborts.filter((one) => one !== due);
  return beginMs + Math.round(ABORTED_SHARE * askedMs);
}

/** Focuses when the train's count of frames says so. */
export function refocusIfDue(night: NightUnderway, s: TrainState): void {
  if (night.scenario.habits?.refocusTogether === true || !s.train.refocusAfter.includes(s.frames)) return;
  // Once per count: a block that is entered again must not focus again.
  if (s.sinceFocusMs === s.freeMs) return;
  refocus(night, s);
}

/** A refocus; the pilot's rests the guiding meanwhile. */
export function refocus(night: NightUnderway, s: TrainState): void {
  const isPilot = s === night.pilot;
  const ms = night.random.whole(82_000, 118_000);
  const drawn = Number((2.35 + 0.15 * night.random.next()).toFixed(2));
  const before = night.scenario.habits?.sizeBeforeFocus ?? drawn;
  const fromMs = s.freeMs;
  if (isPilot) night.log(fromMs, s, 'guiding-rest-begin', { why: 'refocus' });
  night.log(fromMs, s, 'focus-begin', { why: 'star size' });
  s.focusPosition -= night.random.whole(12, 40);
  s.refocuses++;
  s.worsePx = s.train.worseFocus?.number === s.refocuses ? s.train.worseFocus.px : 0;
  const toMs = fromMs + ms;
  night.log(toMs, s, 'focus-end', {
    ok: true,
    sizeBefore: before,
    sizeAfter: Number((2.08 + s.worsePx + 0.06 * night.random.next()).toFixed(2)),
    position: s.focusPosition,
    temperature: Number((14 - (0.8 * (toMs - Date.parse(night.scenario.begin))) / 3_600_000).toFixed(2)),
  });
  night.book(s, 'focus', ms);
  s.freeMs = toMs;
  if (isPilot) {
    night.log(toMs, s, 'guiding-rest-end', {});
    night.log(toMs, s, 'settling-begin', {});
    const settledMs = toMs + night.random.whole(6000, 11_000);
    night.log(settledMs, s, 'settling-end', { ok: true });
    night.book(s, 'guiding', settledMs - toMs);
    s.freeMs = settledMs;
    night.pauses.push({ fromMs, toMs, settledMs });
    night.guidingOff.push(
      { fromMs, toMs, causedBy: s.train.id, leaves: driftArcsec(ms) },
      { fromMs: toMs, toMs: settledMs, causedBy: s.train.id, returns: driftArcsec(ms) },
    );
  }
  s.sinceFocusMs = s.freeMs;
}
