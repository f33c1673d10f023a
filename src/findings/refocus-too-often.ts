/** Refocuses before the stars had grown, which did not shrink them. */
import {
  durationMs,
  groupBy,
  listed,
  percent,
  sum,
  times,
  focusRunsOf,
  isNeedlessFocus,
  type FocusRun,
  type NightFacts,
  FOCUS_GROWTH,
} from '../model/index.js';
import type { FindingDraft, FindingModule } from './finding.js';
import { whatIfOf, winOfTime } from './trains.js';
import { clock, firstOf } from './wording.js';

export const refocusTooOften: FindingModule<{ readonly growth: number; readonly minimumRuns: number }> = {
  id: 'refocus-too-often',
  title: 'Needless refocuses',
  needs: ['refocuses', 'sized-refocuses'],
  // Refocus when stars have grown by a tenth: common practice, no source.
  defaults: { growth: FOCUS_GROWTH, minimumRuns: 2 },
  find(night, { growth, minimumRuns }) {
    const needless = night.gathered.trains.flatMap(({ id }) =>
      focusRunsOf(night, id).filter((run) => isNeedlessFocus(run, growth)),
    );
    const often = [...groupBy(needless, (r) => r.train)].filter(([, runs]) => runs.length >= minimumRuns);
    // Trains that refocus simultaneously gain nothing individually: one waits for the other.
    if (often.length > 1 && whatIfOf(night, 'refocus-together-needed') !== null) {
      const trains = often.map(([train]) => train);
      return [
        findingOf(
          night,
          trains,
          often.flatMap(([, runs]) => runs),
          'refocus-together-needed',
          growth,
        ),
      ];
    }
    return often.map(([train, runs]) => findingOf(night, [train], runs, `refocus-${train}-needed`, growth));
  },
};

/** @param whatIf the replay of the advice */
function findingOf(
  night: NightFacts,
  trains: readonly string[],
  runs: readonly FocusRun[],
  whatIf: string,
  growth: number,
): FindingDraft {
  const costMs = sum(runs.map((r) => durationMs(r.span)));
  const win = winOfTime(night, trains.join(), costMs, whatIf);
  const counts = trains.map((train) => runs.filter((r) => r.train === train).length);
  const isEven = counts.every((count) => count === counts[0]);
  const said = isEven ? times(Math.max(...counts)) : listed(counts.map(times));
  return {
    title: `${listed(trains)} refocused ${said}${trains.length > 1 && isEven ? ' each' : ''} without need`,
    costMs,
    evidence: [
      ...firstOf(
        runs.map(
          (r) =>
            `${clock(r.span.startMs, night)}${trains.length > 1 ? ` (${r.train})` : ''}: stars ${grown(r)} since the ` +
            `last refocus, ${shrunk(r)} by this one`,
        ),
      ),
      win.evidence,
    ],
    advice:
      `Let ${listed(trains)} refocus when ${trains.length > 1 ? 'their' : 'its'} stars have grown by ` +
      `${percent(growth)}, not by the clock or by each small change of temperature.`,
    winMs: win.winMs,
    confidence: runs.every((r) => r.activity.facts?.sizeBefore !== undefined) ? 'high' : 'medium',
    links: [{ text: 'Stars', anchor: 'stars' }],
    minutes: runs.map((r) => ({ train: r.train, span: r.span })),
  };
}

function grown({ sizeBefore, sizeAtLast }: FocusRun): string {
  if (sizeBefore === null || sizeAtLast === null) return 'of unknown size';
  const share = sizeBefore / sizeAtLast - 1;
  return share >= 0.005 ? `grown by ${percent(share)}` : 'not grown';
}

function shrunk({ sizeBefore, sizeAfter }: FocusRun): string {
  if (sizeBefore === null || sizeAfter === null) return 'not known to have been made smaller';
  const share = 1 - sizeAfter / sizeBefore;
  return share >= 0.005 ? `made smaller by ${percent(share)}` : 'not made smaller';
}
