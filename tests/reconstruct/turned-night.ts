/** A night that is dark from its first light until an hour after its last. */
import type { Frame, Night } from '../../src/model/index.js';
import { curve, HOUR, MINUTE, nightOf, span } from '../findings/support.js';

const END = 330 * MINUTE + HOUR;

export function unusedAndTurned(frames: readonly Frame[]): Night {
  const window = span(-60, END);
  const none = { duskMs: null, dawnMs: null };
  return nightOf({
    frames,
    window,
    curves: [curve('NGC 281', -300, END, () => 50)],
    almanac: {
      sunsetMs: null,
      sunriseMs: null,
      twilight: { civil: none, nautical: none, astronomical: none },
      window: { span: window, kind: 'nautical', asked: 'nautical', sunMinimumDeg: -40, sunMinimumMs: window.startMs },
      moon: { illumination: 0, waxing: true, riseMs: null, setMs: null },
    },
  });
}
