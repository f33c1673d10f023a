/** Dithers, asked for and unasked, and what all trains do while their shutters are closed for one. */
import { refocus, runCompanions } from './exposures.js';
import type { NightUnderway } from './night-underway.js';

/** All trains that take part close their shutters, then the mount moves. */
export function dither(night: NightUnderway): void {
  const { pilot } = night;
  const { habits = {} } = night.scenario;
  const requestMs = pilot.freeMs;
  if (habits.dithersUnasked === true) {
    ditherUnasked(night, requestMs);
    return;
  }
  runCompanions(night, requestMs, true);
  const ready: Record<string, number> = {};
  // One that has not begun is no part of the dither.
  const taking = night.states.filter((s) => s.frames > 0 || s.freeMs <= requestMs);
  for (const s of taking) {
    ready[s.train.id] = s.freeMs;
    night.log(s.freeMs, s, 'dither-ready', {});
  }
  const beginMs = Math.max(...Object.values(ready));
  const moveMs = night.random.whole(2200, 4800);
  const settleMs = night.random.whole(7000, 19_000) + 1000 * (habits.settleExtraSeconds ?? 0);
  night.log(beginMs, pilot, 'dither-begin', { pixels: Number((4 + 3 * night.random.next()).toFixed(1)) });
  night.log(beginMs + moveMs, pilot, 'dither-end', {});
  night.log(beginMs + moveMs, pilot, 'settling-begin', {});
  night.log(beginMs + moveMs + settleMs, pilot, 'settling-end', { ok: true });
  for (const s of taking) {
    night.book(s, 'dither-wait', beginMs - s.freeMs);
    night.book(s, 'dither', moveMs + settleMs);
    s.freeMs = beginMs + moveMs + settleMs;
  }
  const last = Object.entries(ready).reduce((a, b) => (b[1] > a[1] ? b : a));
  night.cycles.push({ beginMs, readyMs: ready, holder: taking.length > 1 ? last[0] : null, moveMs, settleMs });
  if (habits.refocusTogether === true) refocusTogether(night);
}

/** The mount moves when the pilot is ready: companions are neither asked nor waited for. */
function ditherUnasked(night: NightUnderway, requestMs: number): void {
  const { pilot } = night;
  runCompanions(night, requestMs, false);
  const moveMs = night.random.whole(2200, 4800);
  const settleMs = night.random.whole(7000, 19_000);
  const settledMs = requestMs + moveMs + settleMs;
  night.log(requestMs, pilot, 'dither-ready', {});
  night.log(requestMs, pilot, 'dither-begin', { pixels: Number((4 + 3 * night.random.next()).toFixed(1)) });
  night.log(requestMs + moveMs, pilot, 'dither-end', {});
  night.log(requestMs + moveMs, pilot, 'settling-begin', {});
  night.log(settledMs, pilot, 'settling-end', { ok: true });
  night.book(pilot, 'dither', moveMs + settleMs);
  night.strays.push({ fromMs: requestMs, toMs: settledMs, pixels: 5 });
  night.cycles.push({ beginMs: requestMs, readyMs: { [pilot.train.id]: requestMs }, holder: null, moveMs, settleMs });
  pilot.freeMs = settledMs;
}

/** All trains focus while their shutters are closed for a dither, when the pilot's count of frames says so. */
function refocusTogether(night: NightUnderway): void {
  const { pilot } = night;
  const due = pilot.train.refocusAfter.filter((count) => count <= pilot.frames).length;
  if (due <= night.refocused) return;
  night.refocused = due;
  const fromMs = pilot.freeMs;
  for (const s of night.companions) if (s.train.refocusAfter.length > 0) refocus(night, s);
  refocus(night, pilot);
  const doneMs = Math.max(...night.states.map((s) => s.freeMs));
  for (const s of night.states) {
    night.book(s, 'partner-wait', doneMs - s.freeMs);
    s.freeMs = doneMs;
  }
  // Nobody exposed meanwhile.
  night.pauses = night.pauses.filter((pause) => pause.fromMs < fromMs);
}

/** A train that exposes no more waited for nothing. */
export function forgetIdleWaits(night: NightUnderway): void {
  night.cycles.forEach((cycle, i) => {
    const ready = Object.entries(cycle.readyMs).filter(([train, readyMs]) => {
      const goesOn = night.frames.some((f) => f.train === train && f.beginMs >= cycle.beginMs);
      const state = night.states.find((s) => s.train.id === train);
      if (!goesOn && state) night.book(state, 'dither-wait', readyMs - cycle.beginMs);
      return goesOn;
    });
    if (ready.length === Object.keys(cycle.readyMs).length) return;
    const [last] = [...ready].sort(([, a], [, b]) => b - a);
    const holder = ready.length > 1 && last ? last[0] : null;
    night.cycles[i] = { ...cycle, readyMs: Object.fromEntries(ready), holder };
  });
}

/** A dither that nobody waited for. */
export function strayDither(night: NightUnderway, atMs: number, pixels: number): void {
  const movedMs = atMs + 1800;
  const settledMs = movedMs + 3200;
  night.log(atMs, night.pilot, 'dither-begin', { pixels });
  night.log(movedMs, night.pilot, 'dither-end', {});
  night.log(movedMs, night.pilot, 'settling-begin', {});
  night.log(settledMs, night.pilot, 'settling-end', { ok: true });
  night.strays.push({ fromMs: atMs, toMs: settledMs, pixels });
}
