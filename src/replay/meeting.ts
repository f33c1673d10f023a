/** Synchronisation of trains: who waits for a dither, and the refocuses done together at one. */
import type { ReplayRules } from './course.js';
import type { RunningTrain } from './running-train.js';

/** Refocuses due within this of a common one are done with it, ms. */
const TOGETHER_MS = 5_400_000;

/** Whether the train has exposed as often as the rules let it between two dithers. */
export function isDitherDue(t: RunningTrain, { ditherEvery }: ReplayRules): boolean {
  return ditherEvery !== null && t.isAwaited && t.sinceDither >= ditherEvery;
}

/** Whether a free train waits for the next dither rather than exposing again. */
export function isWaitingForDither(
  t: RunningTrain,
  how: { readonly lead: RunningTrain | undefined; readonly rules: ReplayRules; readonly isAsked: boolean },
): boolean {
  const { lead, rules, isAsked } = how;
  const { ditherEvery } = rules;
  if (ditherEvery === null || !lead || !t.isAwaited) return false;
  if (t === lead) return isDitherDue(t, rules);
  if (lead.done || lead.absent) return false;
  if (t.ownCount !== undefined) return t.sinceDither >= t.ownCount;
  if (isAsked) return true;
  if (t.patienceMs === 0 || lead.waitingSinceMs !== null) return false;
  const periodMs = lead.exposureMs + lead.course.turnarounds.typicalMs;
  const readyMs = lead.freeMs + Math.max(0, ditherEvery - lead.sinceDither) * periodMs;
  return readyMs > t.freeMs && readyMs - t.freeMs <= t.patienceMs;
}

/**
 * Refocuses all waiting trains simultaneously, when one is due: every shutter is closed, so nobody is harmed.
 *
 * @returns when the last of them is done, UTC ms
 */
export function focusTogether(waiting: readonly RunningTrain[], atMs: number, rules: ReplayRules): number {
  if (!waiting.some((t) => (t.focusRun?.dueMs ?? Infinity) <= atMs)) return atMs;
  let endMs = atMs;
  for (const t of waiting) {
    const run = t.focusRun;
    if (!run || run.dueMs > atMs + TOGETHER_MS) continue;
    t.finishFocus();
    const settleMs = run.pausesGuiding && rules.guiding === 'off-axis' ? run.settleMs : 0;
    endMs = Math.max(endMs, atMs + run.durationMs + settleMs);
  }
  return endMs;
}
