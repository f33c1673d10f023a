/**
 * A session's times brought to one clock.
 */
import { interval, NO_STEPS, type GuidingSeries, type NightClocks, type Warning } from '../model/index.js';
import type { TrainFrame } from './assign-trains.js';
import { samplesWithin } from './guiding-samples.js';
import { OVERLAP_CODE, overlapWarnings } from './self-overlap.js';
import type { Session } from './session.js';

/**
 * Everything that clocks wrote, corrected for their offsets; guiding samples use the log clock of the steering train.
 */
export function onOneClock(session: Session, pilot: string, { notes, shiftMs, steps }: NightClocks): Session {
  const guiding = session.guiding && withoutStep(session.guiding, steps.ofComputer(pilot));
  const guidingMs = shiftMs(pilot, 'log', guiding?.atMs[0] ?? 0);
  const everMs = { startMs: -Infinity, endMs: Infinity };
  const frames = session.frames.map((frame) => {
    if (!frame.exposure) return frame;
    const stepMs = steps.writtenMs(frame.train, frame);
    const ms = stepMs + shiftMs(frame.train, 'headers', frame.exposure.startMs - stepMs);
    if (ms === 0) return frame;
    return { ...frame, exposure: interval(frame.exposure.startMs - ms, frame.exposure.endMs - ms) };
  });
  return {
    ...session,
    clocks: notes,
    frames,
    warnings: steps === NO_STEPS ? session.warnings : overlappingStill(session.warnings, frames),
    events: session.events.map((event) => {
      const train = event.train ?? pilot;
      const stepMs = steps.writtenMs(train, event);
      const ms = stepMs + shiftMs(train, 'log', event.atMs - stepMs);
      return ms === 0 ? event : { ...event, atMs: event.atMs - ms };
    }),
    lineTimes: session.lineTimes.map((written) => {
      const train = written.train ?? pilot;
      const own = steps.lines(train, written);
      return { ...own, atMs: own.atMs.map((ms) => ms - shiftMs(train, 'log', ms)) };
    }),
    guiding: guiding && guidingMs !== 0 ? samplesWithin(guiding, everMs, guidingMs) : guiding,
  };
}

/** A clock that was set back makes one camera seem to expose twice at once; once that is known, it does not. */
function overlappingStill(warnings: readonly Warning[], frames: readonly TrainFrame[]): readonly Warning[] {
  const others = warnings.filter(({ code }) => code !== OVERLAP_CODE);
  return others.length === warnings.length ? warnings : [...others, ...overlapWarnings(frames)];
}

/** Samples of a clock that was set forward: those after it, by their times. */
function withoutStep(
  series: GuidingSeries,
  step: { readonly atMs: number; readonly byMs: number } | null,
): GuidingSeries {
  return step === null ? series : { ...series, atMs: series.atMs.map((ms) => (ms > step.atMs ? ms - step.byMs : ms)) };
}
