/**
 * Idle stretches within the night that no log line explains.
 */
import {
  counted,
  duration,
  durationMs,
  intersect,
  interval,
  sum,
  type Interval,
  type TrainLedger,
  lightsOf,
} from '../model/index.js';
import type { FindingModule } from './finding.js';
import { winOfTime } from './trains.js';
import { firstOf, fromTo } from './wording.js';

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
      const costMs = sum(idle.map(durationMs));
      if (costMs < minimumMinutes * 60_000) return [];
      // Without a log a gap may be anything: nothing is promised of it.
      const win = night.timeline.headersOnly
        ? null
        : winOfTime(night, ledger.train, costMs, `idle-${ledger.train}-none`);
      return [
        {
          title: `${ledger.train} was idle for ${duration(costMs)}, with no reason in the log`,
          costMs,
          evidence: [
            ...firstOf(
              idle
                .sort((a, b) => durationMs(b) - durationMs(a))
                .map((s) => `${fromTo(s, night)}: ${duration(durationMs(s))}`),
            ),
            ...(win ? [win.evidence] : []),
          ],
          advice: night.timeline.headersOnly
            ? 'Add the capture logs to the session: they would say what these gaps were.'
            : `Look at ${counted(idle.length, 'gap')} in ${ledger.train}’s own log: a program that stopped, a ` +
              'question on the screen, a plan that ran out.',
          ...(win && win.winMs > 0 ? { winMs: win.winMs } : {}),
          confidence: night.timeline.headersOnly ? ('low' as const) : ('medium' as const),
          links: [
            { text: 'Ledger', anchor: 'ledger' },
            { text: 'Timeline', anchor: 'strips' },
          ],
          minutes: idle.map((span) => ({ train: ledger.train, span })),
        },
      ];
    });
  },
};

function unexplained({ segments }: TrainLedger, within: Interval): Interval[] {
  return segments.flatMap((s) => (s.account === 'unexplained' ? (intersect(s.span, within) ?? []) : []));
}
