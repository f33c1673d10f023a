/** The refocuses of a night as the replay runs them: when each became due, and what it was adjacent to. */
import {
  durationMs,
  focusRunsOf as runsOf,
  isNeedlessFocus,
  type AccountedNight,
  type Activity,
  type JudgedFrame,
} from '../../model/index.js';
import type { Block, FocusRun } from '../course.js';
import { placeInPlan } from './blocks.js';
import { cycleEndMs, dueBefore, type Idle } from './idles.js';
import { resumesGuiding } from './stretches.js';

/** A train's activities, in order. */
interface Done {
  readonly lights: readonly JudgedFrame[];
  readonly idles: readonly Idle[];
  readonly blocks: readonly Block[];
}

/** The refocuses of one train. */
export function focusRunsOf(train: string, done: Done, night: AccountedNight): FocusRun[] {
  const pauses = night.timeline.activities.filter((a) => a.kind === 'guiding-rest');
  const runs = runsOf(night, train);
  return done.idles.flatMap((idle) =>
    idle.focus.map((run): FocusRun => {
      const pause = pauses.find(
        (p) => p.causedBy === train && p.span.startMs < run.span.endMs && p.span.endMs > run.span.startMs,
      );
      const settling = pause && night.timeline.activities.find((a) => resumesGuiding(a, [pause]));
      const known = runs.find(({ span }) => span.startMs === run.span.startMs);
      const changesFilter = known?.afterFilterChange === true;
      return {
        ...placeOf(run, idle, changesFilter, done, night),
        durationMs: durationMs(run.span),
        pausesGuiding: pause !== undefined,
        settleMs: settling ? Math.max(0, settling.span.endMs - run.span.endMs) : 0,
        why: changesFilter ? 'filter-change' : known && isNeedlessFocus(known) ? 'needless' : 'other',
      };
    }),
  );
}

/**
 * When a refocus became due. One at a filter change belongs to it, and one after a dither follows a dither in any
 * replay, even if that is minutes early or late: it is due from the middle of the previous frame on.
 */
function placeOf(
  { span: { startMs } }: Activity,
  idle: Idle,
  changesFilter: boolean,
  { lights, blocks }: Done,
  { accounts: { dithers } }: AccountedNight,
): Pick<FocusRun, 'dueMs' | 'place'> {
  if (changesFilter) {
    const { block, framesDone } = placeInPlan(lights.indexOf(idle.after), blocks);
    if (framesDone === 0 && block > 0) return { dueMs: dueBefore(startMs, idle), place: { beforeBlock: block } };
  }
  const after = idle.cycles.findLast((cycle) => cycleEndMs(cycle) <= startMs + 1);
  if (after === undefined || idle.stretch !== null) return { dueMs: dueBefore(startMs, idle) };
  const previous = dithers.findLast((cycle) => cycle.beginMs < after.beginMs);
  const sinceMs = previous ? cycleEndMs(previous) : (lights[0]?.exposure.startMs ?? after.beginMs);
  return { dueMs: Math.round((sinceMs + after.beginMs) / 2), place: 'after-dither' };
}
