/**
 * A train that takes much longer than the others from one exposure to the next.
 */
import { CAUTION, counted, duration, interval, listed, sum, type NightFacts, lightsOf } from '../model/index.js';
import type { FindingModule, TrainSpan } from './finding.js';
import { usualPauseMs, winOfTime } from './trains.js';
import { inSentence } from './wording.js';

export const slowReadout: FindingModule<{
  readonly ratio: number;
  readonly moreSeconds: number;
  readonly longSeconds: number;
  readonly minimumMinutes: number;
}> = {
  id: 'slow-readout',
  title: 'Readout slow on one train',
  needs: ['lights'],
  // A modern camera is read out and saved within a few seconds; common practice, no source.
  defaults: { ratio: 2, moreSeconds: 3, longSeconds: 10, minimumMinutes: 3 },
  find(night, { ratio, moreSeconds, longSeconds, minimumMinutes }) {
    const trains = night.gathered.trains.flatMap(({ id }) => {
      const lights = lightsOf(night, id);
      const pauseMs = usualPauseMs(night, lights);
      return Number.isFinite(pauseMs) ? [{ id, lights, pauseMs }] : [];
    });
    const best = Math.min(...trains.map((t) => t.pauseMs));
    return trains.flatMap(({ id, lights, pauseMs }) => {
      const others = trains.filter((t) => t.id !== id);
      const isSlower = others.length > 0 && pauseMs >= ratio * best && pauseMs - best >= moreSeconds * 1000;
      // A single train is compared with what is usual.
      const goalMs = isSlower ? best : (longSeconds * 1000) / 2;
      if (!isSlower && pauseMs < longSeconds * 1000) return [];
      const minutes = excesses(lights, id, goalMs);
      const costMs = sum(minutes.map((m) => m.span.endMs - m.span.startMs));
      if (costMs < minimumMinutes * 60_000) return [];
      const win = winOfTime(night, id, costMs, `pause-${id}`);
      return [
        {
          title: `${id} took ${secondsOf(pauseMs)} from one exposure to the next`,
          costMs,
          evidence: [
            `${counted(lights.length, 'frame')}; ` +
              (others.length > 0
                ? listed(others.map((o) => `${o.id} took ${secondsOf(o.pauseMs)}`))
                : `${secondsOf(goalMs)} would be usual`),
            `${duration(costMs)} more than at ${secondsOf(goalMs)} a frame`,
            win.evidence,
          ],
          advice:
            `Look at what ${id} does between exposures: readout mode and transfer speed of the camera, cable and ` +
            'hub, saving to a slow or distant disk, star detection on the whole frame.' +
            (win.isReplayed && win.winMs > 0 ? ` As it was replayed: ${inSentence(win.title)}.` : ''),
          winMs: win.winMs,
          confidence: night.timeline.headersOnly ? ('medium' as const) : ('high' as const),
          links: [{ text: 'Ledger', anchor: 'ledger' }],
          caution: CAUTION,
          minutes,
        },
      ];
    });
  },
};

/** The excess over the goal in each short pause of the train. */
function excesses(lights: NightFacts['accounts']['lights'], train: string, goalMs: number): TrainSpan[] {
  return lights.slice(1).flatMap((after, i): TrainSpan[] => {
    const before = lights[i];
    if (!before) return [];
    const pauseMs = after.exposure.startMs - before.exposure.endMs;
    return pauseMs > goalMs && pauseMs <= 60_000
      ? [{ train, span: interval(before.exposure.endMs + Math.round(goalMs), after.exposure.startMs) }]
      : [];
  });
}

function secondsOf(ms: number): string {
  return `${(ms / 1000).toFixed(1)} s`;
}
