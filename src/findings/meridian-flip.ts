/**
 * What the meridian flip cost: waiting for it, turning, centring, and starting the guiding again.
 */
import {
  CAUTION,
  clip,
  coveredMs,
  duration,
  durationMs,
  interval,
  listed,
  subtract,
  sum,
  type Activity,
  type Interval,
  type NightFacts,
  mean,
  lightsOf,
} from '../model/index.js';
import type { FindingModule } from './finding.js';
import { keptShare } from './trains.js';
import { clock } from './wording.js';

/** Nobody waits longer than this for a flip, ms. Common practice, no source. */
const LONGEST_WAIT_MS = 1_800_000;

/** A mount turns over in less, ms. Common practice, no source. */
const LONGEST_TURN_MS = 180_000;

interface Rest {
  readonly train: string;
  /** From the train's last light before to its first one after. */
  readonly idleMs: Interval;
  /** Of it, what was no hold: a roof that closes at the flip would have stopped the night anyway. */
  readonly own: readonly Interval[];
  /** Of that, before the mount began to turn, and from then on. */
  readonly waitMs: number;
  readonly turnMs: number;
}

export const meridianFlip: FindingModule<{ readonly minimumMinutes: number; readonly usualMinutes: number }> = {
  id: 'meridian-flip',
  title: 'Meridian flip',
  needs: ['event-log', 'lights'],
  // Turning, centring and guiding again take three to five minutes; common practice, no source.
  defaults: { minimumMinutes: 3, usualMinutes: 4 },
  find(night, { minimumMinutes, usualMinutes }) {
    return night.timeline.activities
      .filter((a) => a.kind === 'flip')
      .flatMap((flip) => {
        const rests = restsAround(flip, night);
        const costMs = sum(rests.map((r) => coveredMs(r.own)));
        if (rests.length === 0) return [];
        const turnMs = sum(rests.map((r) => r.turnMs));
        const waitMs = sum(rests.map((r) => r.waitMs));
        const shareKept = mean(rests.map((r) => keptShare(night, r.train)));
        const slowMs = Math.max(0, turnMs - usualMinutes * 60_000 * rests.length);
        // A flip as every mount makes it is no finding.
        if (waitMs + slowMs < minimumMinutes * 60_000) return [];
        return [
          {
            title: `The meridian flip at ${clock(flip.span.startMs, night)} cost ${duration(costMs)}`,
            costMs,
            evidence: [
              listed(
                rests.map(
                  (r) =>
                    `${r.train} was idle from ${clock(r.idleMs.startMs, night)} to ` +
                    `${clock(r.idleMs.endMs, night)}` +
                    (r.waitMs >= 15_000 ? `, ${duration(r.waitMs)} of it before the mount turned` : '') +
                    heldWords(r),
                ),
              ),
              `the turn itself took ${duration(durationMs(flip.span))}; centring and guiding followed`,
            ],
            advice:
              'Let all trains end their exposures together just before the flip' +
              (slowMs > 0
                ? ', and look at what follows the turn: a centring that converges sooner, a calibration that is kept'
                : '') +
              (durationMs(flip.span) > LONGEST_TURN_MS
                ? `; the turn itself is long: see how fast the mount slews, and what it waits for before and after`
                : '') +
              '; with room at the meridian, flip between two targets instead.',
            winMs: Math.round((waitMs + slowMs) * shareKept),
            confidence: 'high' as const,
            links: [{ text: 'Ledger', anchor: 'ledger' }],
            caution: CAUTION,
            minutes: rests.flatMap(({ train, own }) => own.map((span) => ({ train, span }))),
          },
        ];
      });
  },
};

function restsAround(flip: Activity, night: NightFacts): Rest[] {
  return night.gathered.trains.flatMap(({ id }): Rest[] => {
    const lights = lightsOf(night, id);
    const before = lights.findLast((f) => f.exposure.endMs <= flip.span.startMs + 1000);
    const after = lights.find((f) => f.exposure.startMs >= flip.span.endMs - 1000);
    if (!before || !after) return [];
    // A rest that began long before the flip had another reason.
    const isForIt = flip.span.startMs - before.exposure.endMs <= LONGEST_WAIT_MS;
    const startMs = isForIt ? Math.min(before.exposure.endMs, flip.span.startMs) : flip.span.startMs;
    const idle = interval(startMs, after.exposure.startMs);
    const own = subtract([idle], holdsOf(id, night));
    const waitMs = coveredMs(clip(own, interval(startMs, flip.span.startMs)));
    return [{ train: id, idleMs: idle, own, waitMs, turnMs: coveredMs(own) - waitMs }];
  });
}

function holdsOf(train: string, { timeline }: NightFacts): Interval[] {
  return timeline.activities
    .filter((a) => a.kind === 'hold' && (a.train === undefined || a.train === train))
    .map(({ span }) => span);
}

function heldWords({ idleMs, own }: Rest): string {
  const heldMs = durationMs(idleMs) - coveredMs(own);
  return heldMs > 0 ? `; ${duration(heldMs)} of it on hold, which is left out here` : '';
}
