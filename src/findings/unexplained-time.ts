/**
 * Idle stretches within the night that no log line explains.
 */
import {
  clip,
  duration,
  durationMs,
  intersect,
  interval,
  listed,
  sum,
  type Interval,
  type TrainLedger,
  lightsOf,
} from '../model/index.js';
import type { FindingModule, TrainSpan } from './finding.js';
import { winOfTime } from './trains.js';
import { firstOf, fromTo } from './wording.js';

/** Less waiting is not worth a line, ms. */
const WAITED_MS = 60_000;

export const unexplainedTime: FindingModule<{ readonly minimumMinutes: number; readonly stretchMinutes: number }> = {
  id: 'unexplained-time',
  title: 'Idle time that nothing explains',
  needs: ['lights'],
  defaults: { minimumMinutes: 5, stretchMinutes: 2 },
  find(night, { minimumMinutes, stretchMinutes }) {
    return night.accounts.ledgers.flatMap((ledger) => {
      const lights = lightsOf(night, ledger.train);
      const [first, last] = [lights[0], lights.at(-1)];
      if (!first || !last) return [];
      // What lies before the first light and after the last one is darkness unused, which is another finding.
      const idle = unexplained(
        ledger,
        interval(first.exposure.startMs, Math.max(first.exposure.startMs, last.exposure.endMs)),
      ).filter((s) => durationMs(s) >= stretchMinutes * 60_000);
      const idleMs = sum(idle.map(durationMs));
      const waiting = waitingFor(ledger.train, idle, night.accounts.ledgers);
      const waitedMs = sum(waiting.map(({ span }) => durationMs(span)));
      const costMs = idleMs + waitedMs;
      if (idleMs < minimumMinutes * 60_000) return [];
      // Without a log a gap may be anything: nothing is promised of it.
      const win = night.timeline.headersOnly
        ? null
        : winOfTime(night, ledger.train, idleMs, `idle-${ledger.train}-none`);
      return [
        {
          title: `${ledger.train} was idle for ${duration(idleMs)}, with no reason in the log`,
          costMs,
          evidence: [
            ...firstOf(
              idle
                .sort((a, b) => durationMs(b) - durationMs(a))
                .map((s) => `${fromTo(s, night)}: ${duration(durationMs(s))}`),
            ),
            ...(waitedMs >= WAITED_MS
              ? [
                  `${listed([...new Set(waiting.map(({ train }) => train))])} stood ready for a dither meanwhile, ` +
                    `${duration(waitedMs)} in all`,
                ]
              : []),
            ...(win ? [win.evidence] : []),
          ],
          advice: night.timeline.headersOnly
            ? 'Add the capture logs to the session: they would say what these gaps were.'
            : `Look at what the log of ${ledger.train} has about the gaps: a program that stopped, a question on the ` +
              'screen, a plan that ran out.',
          ...(win && win.winMs > 0 ? { winMs: win.winMs } : {}),
          confidence: night.timeline.headersOnly ? ('low' as const) : ('medium' as const),
          links: [
            { text: 'Ledger', anchor: 'ledger' },
            { text: 'Timeline', anchor: 'strips' },
          ],
          minutes: [...idle.map((span) => ({ train: ledger.train, span })), ...waiting],
        },
      ];
    });
  },
};

/** What other trains waited for this one while it was idle. */
function waitingFor(train: string, idle: readonly Interval[], ledgers: readonly TrainLedger[]): TrainSpan[] {
  return ledgers
    .filter((other) => other.train !== train)
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
