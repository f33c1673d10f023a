/**
 * Refocuses that came before the stars had grown, and did not shrink them.
 */
import {
  durationMs,
  groupBy,
  percent,
  sum,
  times,
  focusRunsOf,
  isNeedlessFocus,
  type FocusRun,
  FOCUS_GROWTH,
} from '../model/index.js';
import type { FindingModule } from './finding.js';
import { winOfTime } from './trains.js';
import { clock, firstOf } from './wording.js';

export const refocusTooOften: FindingModule<{ readonly growth: number; readonly minimumRuns: number }> = {
  id: 'refocus-too-often',
  title: 'Needless refocuses',
  needs: ['refocuses', 'focus-sizes'],
  // Refocus when stars have grown by a tenth: common practice, no source.
  defaults: { growth: FOCUS_GROWTH, minimumRuns: 2 },
  find(night, { growth, minimumRuns }) {
    const needless = night.gathered.trains.flatMap(({ id }) =>
      focusRunsOf(night, id).filter((run) => isNeedlessFocus(run, growth)),
    );
    return [...groupBy(needless, (r) => r.train)].flatMap(([train, runs]) => {
      if (runs.length < minimumRuns) return [];
      const costMs = sum(runs.map((r) => durationMs(r.span)));
      const win = winOfTime(night, train, costMs, `refocus-${train}-needed`);
      return [
        {
          title: `${train} refocused ${times(runs.length)} without need`,
          costMs,
          evidence: [
            ...firstOf(
              runs.map(
                (r) =>
                  `${clock(r.span.startMs, night)}: stars ${grown(r)} since the last refocus, ${shrunk(r)} by this one`,
              ),
            ),
            win.evidence,
          ],
          advice:
            `Let ${train} refocus when its stars have grown by ${percent(growth)}, not by the clock or by each ` +
            'small change of temperature.',
          winMs: win.winMs,
          confidence: runs.every((r) => r.activity.facts?.sizeBefore !== undefined)
            ? ('high' as const)
            : ('medium' as const),
          links: [{ text: 'Stars and focus', anchor: 'stars' }],
          minutes: runs.map((r) => ({ train, span: r.span })),
        },
      ];
    });
  },
};

function grown({ sizeBefore, sizeAtLast }: FocusRun): string {
  if (sizeBefore === null || sizeAtLast === null) return 'of unknown size';
  const share = sizeBefore / sizeAtLast - 1;
  return share >= 0.005 ? `grown by ${percent(share)}` : 'not grown';
}

function shrunk({ sizeBefore, sizeAfter }: FocusRun): string {
  if (sizeBefore === null || sizeAfter === null) return 'not known to be made smaller';
  const share = 1 - sizeAfter / sizeBefore;
  return share >= 0.005 ? `made smaller by ${percent(share)}` : 'not made smaller';
}
