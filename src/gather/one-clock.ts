/**
 * A session's times brought to one clock.
 */
import { interval, type NightClocks } from '../model/index.js';
import { samplesWithin } from './guiding-samples.js';
import type { Session } from './session.js';

/**
 * Everything that clocks wrote, corrected for their offsets; guiding samples use the log clock of the steering train.
 */
export function onOneClock(session: Session, pilot: string, { notes, shiftMs }: NightClocks): Session {
  const guidingMs = shiftMs(pilot, 'log', session.guiding?.atMs[0] ?? 0);
  const everMs = { startMs: -Infinity, endMs: Infinity };
  return {
    ...session,
    clocks: notes,
    frames: session.frames.map((frame) => {
      if (!frame.exposure) return frame;
      const ms = shiftMs(frame.train, 'headers', frame.exposure.startMs);
      if (ms === 0) return frame;
      return { ...frame, exposure: interval(frame.exposure.startMs - ms, frame.exposure.endMs - ms) };
    }),
    events: session.events.map((event) => {
      const ms = shiftMs(event.train ?? pilot, 'log', event.atMs);
      return ms === 0 ? event : { ...event, atMs: event.atMs - ms };
    }),
    lineTimes: session.lineTimes.map((own) => ({
      ...own,
      atMs: own.atMs.map((ms) => ms - shiftMs(own.train ?? pilot, 'log', ms)),
    })),
    guiding: session.guiding && guidingMs !== 0 ? samplesWithin(session.guiding, everMs, guidingMs) : session.guiding,
  };
}
