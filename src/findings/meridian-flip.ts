/** The cost of the meridian flip: waiting for it, flipping, centring, and restarting the guiding. */
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
import { FOR_THE_FLIP } from './hold.js';
import { keptShare } from './trains.js';
import { clock } from './wording.js';

/** Nobody waits longer than this for a flip, ms. Common practice, no source. */
const LONGEST_WAIT_MS = 1_800_000;

/** A flip takes less, ms. Common practice, no source. */
const LONGEST_TURN_MS = 180_000;

interface Rest {
  readonly train: string;
  /** From the train's last light before to its first one after. */
  readonly idleMs: Interval;
  /** The part that was no hold: a roof that closes at the flip would have stopped the night anyway. */
  readonly own: readonly Interval[];
  /** The part before the flip began, and from then on. */
  readonly waitMs: number;
  readonly turnMs: number;
  /** Its sub length, from the last one. */
  readonly subMs: number;
}

export const meridianFlip: FindingModule<{ readonly minimumMinutes: number; readonly usualMinutes: number }> = {
  id: 'meridian-flip',
  title: 'Meridian flip',
  needs: ['event-log', 'lights'],
  // Flip, centring and restarted guiding take three to five minutes; common practice, no source.
  defaults: { minimumMinutes: 3, usualMinutes: 4 },
  find(night, { minimumMinutes, usualMinutes }) {
    return flipsOf(night).flatMap((flip) => {
      const rests = restsAround(flip, night);
      const costMs = sum(rests.map((r) => coveredMs(r.own)));
      const failed = flip.tries.filter(({ ok }) => ok === false).length;
      if (rests.length === 0) return [];
      const turnMs = sum(rests.map((r) => r.turnMs));
      const waitMs = sum(rests.map((r) => r.waitMs));
      const shareKept = mean(rests.map((r) => keptShare(night, r.train)));
      const slowMs = Math.max(0, turnMs - usualMinutes * 60_000 * rests.length);
      // A normal flip is no finding, nor is a wait too short for a further sub.
      const idleMs = sum(rests.map((r) => Math.max(0, r.waitMs - r.subMs)));
      if (idleMs + slowMs < minimumMinutes * 60_000) return [];
      return [
        {
          title:
            `The meridian flip at ${clock(flip.span.startMs, night)}${failed > 0 ? ', which failed at first,' : ''} ` +
            `cost ${duration(costMs)}`,
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
            flip.tries.length > 1
              ? `${flip.tries.length} tries from ${clock(flip.span.startMs, night)} to ` +
                `${clock(flip.span.endMs, night)}${failed > 0 ? `, ${failed} of them failed` : ''}; centring and ` +
                'guiding followed'
              : `the turn itself took ${duration(durationMs(flip.span))}; centring and guiding followed`,
          ],
          advice:
            'Let all trains end their exposures together just before the flip' +
            (idleMs >= minimumMinutes * 60_000
              ? ', and go on exposing until the mount must turn: it waited ' +
                duration(Math.max(...rests.map((r) => r.waitMs)))
              : '') +
            (slowMs > 0
              ? ', and shorten what follows the turn: a centring that converges sooner, a calibration that is kept'
              : '') +
            (flip.tries.length > 1
              ? '; see in the mount’s log why one try was not enough: a limit set too near, a target not yet past ' +
                'the meridian'
              : '') +
            (Math.max(...flip.tries.map(({ span }) => durationMs(span))) > LONGEST_TURN_MS
              ? `; the turn itself is long: check how fast the mount slews, and what it waits for before and after`
              : '') +
            '; if the mount may track past the meridian, flip between two targets instead.',
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

/** A flip, and its duration: a failed attempt is followed by another. */
interface Flip {
  /** From the first attempt's begin to the last one's end. */
  readonly span: Interval;
  readonly tries: readonly { readonly span: Interval; readonly ok: boolean | undefined }[];
}

/** The night's flips; attempts between which no train took a light are one. */
function flipsOf(night: NightFacts): Flip[] {
  const begins = night.accounts.lights.map(({ exposure }) => exposure.startMs);
  const flips: Flip[] = [];
  for (const { span, ...activity } of night.timeline.activities.filter((a) => a.kind === 'flip')) {
    const one = { span, ok: activity.kind === 'flip' ? activity.facts?.ok : undefined };
    const last = flips.at(-1);
    const isAnother = last === undefined || begins.some((ms) => ms >= last.span.endMs && ms < span.startMs);
    if (isAnother) flips.push({ span, tries: [one] });
    else {
      const endMs = Math.max(last.span.endMs, span.endMs);
      flips[flips.length - 1] = { span: interval(last.span.startMs, endMs), tries: [...last.tries, one] };
    }
  }
  return flips;
}

function restsAround(flip: Flip, night: NightFacts): Rest[] {
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
    const subMs = durationMs(before.exposure);
    return [{ train: id, idleMs: idle, own, waitMs, turnMs: coveredMs(own) - waitMs, subMs }];
  });
}

function holdsOf(train: string, { timeline }: NightFacts): Interval[] {
  return timeline.activities
    .filter((a) => a.kind === 'hold' && !isForTheFlip(a) && (a.train === undefined || a.train === train))
    .map(({ span }) => span);
}

/** Whether a hold waited for the flip itself. */
function isForTheFlip(hold: Activity): boolean {
  return hold.kind === 'hold' && hold.why !== undefined && FOR_THE_FLIP.test(hold.why);
}

function heldWords({ idleMs, own }: Rest): string {
  const heldMs = durationMs(idleMs) - coveredMs(own);
  return heldMs > 0 ? `; ${duration(heldMs)} of it on hold, which is left out here` : '';
}
