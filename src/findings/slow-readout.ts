/**
 * A train that takes much longer than the others from one exposure to the next, or whose saving stalls now and then.
 */
import {
  CAUTION,
  counted,
  duration,
  durationMs,
  interval,
  lightsOf,
  listed,
  median,
  sum,
  times,
  type Interval,
  type JudgedFrame,
  type NightFacts,
} from '../model/index.js';
import type { FindingModule, TrainSpan } from './finding.js';
import { keptShare, usualPauseMs, winOfTime } from './trains.js';
import { clock, firstOf, inSentence } from './wording.js';

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
    const slow = trains.flatMap(({ id, lights, pauseMs }) => {
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
            `${duration(costMs)} more than at ${secondsOf(goalMs)} per frame`,
            win.evidence,
          ],
          advice:
            `Look at what ${id} does between exposures: readout mode and transfer speed of the camera, cable and ` +
            'hub, saving to a slow or network disk, star detection on the whole frame.' +
            (win.isReplayed && win.winMs > 0 ? ` As replayed: ${inSentence(win.title)}.` : ''),
          winMs: win.winMs,
          confidence: night.timeline.headersOnly ? ('medium' as const) : ('high' as const),
          links: [{ text: 'Ledger', anchor: 'ledger' }],
          caution: CAUTION,
          minutes,
        },
      ];
    });
    return [...slow, ...trains.flatMap(({ id, lights }) => stalledOn(night, id, lights, minimumMinutes))];
  },
};

/** A readout stalled where it took so many times the usual, and so much more, ms. Common practice, no source. */
const STALLED_RATIO = 5;
const STALLED_MORE_MS = 15_000;
/** So many are no accident. */
const STALLED_TIMES = 3;

/** Readouts that took much longer than the train's others: nobody sees them in the usual pause. */
function stalledOn(night: NightFacts, train: string, lights: readonly JudgedFrame[], minimumMinutes: number) {
  const readouts = lights.flatMap(({ exposure, savedMs }, i): Interval[] => {
    if (savedMs === undefined) return [];
    // A frame that is saved while the next one exposes costs nothing.
    const endMs = Math.min(savedMs, lights[i + 1]?.exposure.startMs ?? Infinity);
    return endMs > exposure.endMs ? [interval(exposure.endMs, endMs)] : [];
  });
  const usualMs = median(readouts.map(durationMs));
  const limitMs = Math.max(STALLED_RATIO * usualMs, usualMs + STALLED_MORE_MS);
  const stalled = readouts.filter((span) => durationMs(span) > limitMs);
  const minutes = stalled.map(({ startMs, endMs }) => ({
    train,
    span: interval(startMs + Math.round(usualMs), endMs),
  }));
  const costMs = sum(minutes.map(({ span }) => durationMs(span)));
  if (stalled.length < STALLED_TIMES || costMs < minimumMinutes * 60_000) return [];
  return [
    {
      title: `Saving a frame stalled ${times(stalled.length)} on ${train}`,
      costMs,
      evidence: [
        `${secondsOf(usualMs)} from the end of an exposure to the saved file in the median of ` +
          `${counted(readouts.length, 'frame')}`,
        ...firstOf(stalled.map((span) => `${clock(span.startMs, night)}: ${duration(durationMs(span))}`)),
      ],
      advice:
        `Find out what holds ${train} up now and then: cable and hub, power saving of the port, a disk that is full, ` +
        'asleep or on the network, a copy, scan or update running at the same time.',
      winMs: Math.round(costMs * keptShare(night, train)),
      confidence: 'high' as const,
      links: [{ text: 'Ledger', anchor: 'ledger' }],
      caution: CAUTION,
      minutes,
    },
  ];
}

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
