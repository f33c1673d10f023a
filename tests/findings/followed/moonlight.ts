/** What moonlight took of a night, for tests alone. */
import { durationMs, sum, type JudgedFrame, type Night } from '../../../src/model/index.js';

/** Open-shutter time that moonlight took of frames, by the program's model, ms. */
export function moonMs(night: Night, frames: (frame: JudgedFrame) => boolean): number {
  return sum(
    night.accounts.lights
      .filter((f) => f.verdict === 'kept' && frames(f))
      .map((f) => {
        const worth = night.worth?.frames[f.id];
        return worth ? durationMs(f.exposure) * (1 - worth.share / worth.moonlessShare) : NaN;
      }),
  );
}
