/** Idle periods within the night that no log line explains. */
import {
  CAUTION,
  clip,
  coveredMs,
  duration,
  durationMs,
  intersect,
  interval,
  listed,
  ownValue,
  sum,
  union,
  type Interval,
  type NightFacts,
  type TrainLedger,
  lightsOf,
} from '../model/index.js';
import type { FindingDraft, FindingModule, TrainSpan } from './finding.js';
import { winOfTime } from './trains.js';
import { firstOf, fromTo } from './wording.js';

/** Shorter waits are not worth a line, ms. */
const WAITED_MS = 60_000;
/** Trains that were idle together for this fraction of each one's time had a common cause. */
const TOGETHER_SHARE = 0.8;

export const unexplainedTime: FindingModule<{ readonly minimumMinutes: number; readonly stretchMinutes: number }> = {
  id: 'unexplained-time',
  title: 'Unexplained idle time',
  needs: ['lights'],
  defaults: { minimumMinutes: 5, stretchMinutes: 2 },
  find(night, { minimumMinutes, stretchMinutes }) {
    const idle = night.accounts.ledgers
      .map((ledger) => idleOf(ledger, night, stretchMinutes * 60_000))
      .filter(({ ms }) => ms >= minimumMinutes * 60_000);
    const together = atOneTime(idle);
    return [
      ...(together.length > 0 ? [findingOf(together, night)] : []),
      ...idle.filter((one) => !together.includes(one)).map((one) => findingOf([one], night)),
    ];
  },
};

/** What one train did not use within its night. */
interface Idle {
  readonly train: string;
  readonly spans: readonly Interval[];
  readonly ms: number;
}

function idleOf(ledger: TrainLedger, night: NightFacts, leastMs: number): Idle {
  const lights = lightsOf(night, ledger.train);
  const [first, last] = [lights[0], lights.at(-1)];
  // Time before the first light and after the last one is unused darkness, which is another finding.
  const spans =
    first && last
      ? unexplained(
          ledger,
          interval(first.exposure.startMs, Math.max(first.exposure.startMs, last.exposure.endMs)),
        ).filter((s) => durationMs(s) >= leastMs)
      : [];
  return { train: ledger.train, spans, ms: sum(spans.map(durationMs)) };
}

/** Trains that were idle simultaneously: a common cause. */
function atOneTime(idle: readonly Idle[]): readonly Idle[] {
  if (idle.length < 2) return [];
  const common = idle.map(({ spans }) => spans).reduce((all, spans) => all.flatMap((span) => clip(spans, span)));
  return idle.every(({ ms }) => coveredMs(common) >= TOGETHER_SHARE * ms) ? idle : [];
}

function findingOf(own: readonly Idle[], night: NightFacts): FindingDraft {
  const trains = own.map(({ train }) => train);
  const [first = ''] = trains;
  const idleMs = sum(own.map(({ ms }) => ms));
  const waiting = own.flatMap(({ train, spans }) => waitingFor(train, trains, spans, night.accounts.ledgers));
  const waitedMs = sum(waiting.map(({ span }) => durationMs(span)));
  // Without a log a gap may be anything: no gain is promised.
  const win = night.timeline.headersOnly
    ? null
    : winOfTime(night, first, idleMs, own.length > 1 ? 'idle-together' : `idle-${first}-none`);
  const wallMs = coveredMs(own.flatMap(({ spans }) => spans));
  return {
    title:
      own.length > 1
        ? `${listed(trains)} were idle at the same time for ${duration(wallMs)}, with no reason in the logs`
        : `${first} was idle for ${duration(idleMs)}, with no reason in the log`,
    costMs: idleMs + waitedMs,
    evidence: [
      ...firstOf(
        union(own.flatMap(({ spans }) => spans))
          .sort((a, b) => durationMs(b) - durationMs(a))
          .map((s) => `${fromTo(s, night)}: ${duration(durationMs(s))}`),
      ),
      ...(waitedMs >= WAITED_MS
        ? [
            `${listed([...new Set(waiting.map(({ train }) => train))])} were ready for a dither meanwhile, ` +
              `${duration(waitedMs)} in all`,
          ]
        : []),
      ...flipsIn(own, night),
      ...(win ? [win.evidence] : []),
    ],
    advice: adviceOf(trains, night),
    ...(win && win.winMs > 0 ? { winMs: win.winMs } : {}),
    confidence: night.timeline.headersOnly ? 'low' : 'medium',
    links: [
      { text: 'Ledger', anchor: 'ledger' },
      { text: 'Two-hour strips', anchor: 'strips' },
    ],
    // The causes may be mains and cabling; adding logs touches nothing.
    ...(own.length > 1 && !night.timeline.headersOnly ? { caution: CAUTION } : {}),
    minutes: [...own.flatMap(({ train, spans }) => spans.map((span) => ({ train, span }))), ...waiting],
  };
}

/** Tolerance from half a turn between frames separated by a meridian flip, degrees. */
const HALF_TURN_DEG = 5;

/** Meridian flips detected from the stars: frames rotated by half a turn relative to those before. */
function flipsIn(own: readonly Idle[], night: NightFacts): string[] {
  const turned = own.flatMap(({ train, spans }) => {
    const lights = lightsOf(night, train).flatMap(({ id, target, exposure }) => {
      const shift = ownValue(night.stars?.frames, id)?.shift ?? null;
      return shift === null ? [] : [{ target, exposure, rotation: shift.rotation }];
    });
    return spans.filter((span) => {
      const before = lights.findLast(({ exposure }) => exposure.endMs <= span.startMs);
      const after = lights.find(({ exposure }) => exposure.startMs >= span.endMs);
      if (!before || !after || before.target !== after.target) return false;
      const turn = Math.abs(after.rotation - before.rotation) % 360;
      return Math.abs(turn - 180) <= HALF_TURN_DEG;
    });
  });
  return union(turned).map(
    (span) => `the stars are rotated by 180° after ${fromTo(span, night)}: a meridian flip took place then`,
  );
}

function adviceOf(trains: readonly string[], { timeline }: NightFacts): string {
  if (timeline.headersOnly) return 'Add the capture logs to the session: they would say what these gaps were.';
  const causes = 'a program that stopped, a dialog waiting on the screen, a plan that ran out';
  return trains.length > 1
    ? 'Look for a single cause, since all stopped together: a computer, network or power that they share, or the ' +
        `pilot’s program, which the others wait for. Read the last lines in the logs of ${listed(trains)} before ` +
        `each gap.`
    : `Read what the log of ${trains.join('')} has around the gaps: ${causes}.`;
}

/** How long other trains waited for this one while it was idle. */
function waitingFor(
  train: string,
  alike: readonly string[],
  idle: readonly Interval[],
  ledgers: readonly TrainLedger[],
): TrainSpan[] {
  return ledgers
    .filter((other) => other.train !== train && !alike.includes(other.train))
    .flatMap(({ train: waiting, segments }) =>
      segments
        .filter(({ account }) => account === 'dither-wait')
        .flatMap(({ span }) => clip(idle, span))
        .map((span) => ({ train: waiting, span })),
    );
}

function unexplained({ segments }: TrainLedger, within: Interval): Interval[] {
  return segments.flatMap((s) => (s.account === 'unexplained' ? (intersect(s.span, within) ?? []) : []));
}
