/**
 * Shared helpers of findings: a train's lights, its usual exposure and pause, the exposures of frames as train time.
 */
import {
  about,
  durationMs,
  indexSpans,
  isReplayed,
  listed,
  median,
  oncePer,
  sum,
  type Account,
  type ActivityKind,
  type JudgedFrame,
  type NightFacts,
  type TrainLedger,
  type WhatIf,
  percent,
} from '../model/index.js';
import type { FindingDraft, TrainSpan } from './finding.js';
import { inSentence } from './wording.js';

/** Requested exposure, ms. */
export function askedMs(frame: JudgedFrame): number {
  return frame.askedMs ?? durationMs(frame.exposure);
}

/** Median of the requested exposures, ms; `NaN` without lights. */
export function usualExposureMs(lights: readonly JudgedFrame[]): number {
  return median(lights.map(askedMs));
}

const BUSY: ReadonlySet<ActivityKind> = new Set<ActivityKind>([
  'dither-move',
  'settling',
  'focus',
  'filter',
  'slew',
  'centre',
  'flip',
  'hold',
  'guiding-start',
]);

/** Longer rests between two lights are not pauses, ms. Common practice, no source. */
const LONGEST_PAUSE_MS = 60_000;

/**
 * The usual pause between two neighbouring lights with no dither, refocus, filter change or pointing between them, ms;
 * `NaN` if there is none.
 */
export function usualPauseMs(night: NightFacts, lights: readonly JudgedFrame[]): number {
  const train = lights[0]?.train;
  const busy = indexSpans(
    night.timeline.activities.filter((a) => (a.train === undefined || a.train === train) && BUSY.has(a.kind)),
    (a) => a.span,
  );
  const pauses = lights.slice(1).flatMap((after, i) => {
    const before = lights[i];
    if (!before) return [];
    const [fromMs, toMs] = [before.exposure.endMs, after.exposure.startMs];
    const isMere =
      toMs >= fromMs &&
      toMs - fromMs <= LONGEST_PAUSE_MS &&
      // An activity of length zero at the pause's very beginning is part of the previous exposure.
      !busy.touching({ startMs: fromMs, endMs: toMs }).some((a) => a.span.endMs > fromMs);
    return isMere ? [toMs - fromMs] : [];
  });
  return median(pauses);
}

/** Exposure time of frames, ms. */
export function exposedMs(frames: readonly JudgedFrame[]): number {
  return sum(frames.map((f) => durationMs(f.exposure)));
}

/** The exposures of frames as train time. */
export function exposures(frames: readonly JudgedFrame[]): TrainSpan[] {
  return frames.map((f) => ({ train: f.train, span: f.exposure }));
}

/** Smaller gains are ignored, ms. */
export const NOTICED_MS = 60_000;
/** Smaller gains are not worth a change, ms. */
const CLEAR_MS = 180_000;
/** What-ifs with this fraction of the best gain are equivalent: the first of them changes least. */
const AS_GOOD = 0.75;

/**
 * The what-if to advise among the candidates, if the night was replayed and one clearly gains within the limits: among
 * those about as good as the best, one that is part of the best combination, then one that needs no new darks, then one
 * with a length that another train uses, then the smallest change.
 */
export function bestWhatIf(night: NightFacts, wanted: (whatIf: WhatIf) => boolean): WhatIf | null {
  if (!isReplayed(night.replay) || night.replay.confidence === 'low') return null;
  const clear = night.replay.whatIfs.filter(
    (w) => wanted(w) && w.outside.length === 0 && w.gain.lowMs > 0 && w.gain.meanMs >= CLEAR_MS,
  );
  const most = Math.max(0, ...clear.map((w) => w.gain.meanMs));
  const good = clear.filter((w) => w.gain.meanMs >= AS_GOOD * most);
  const used = new Set(night.accounts.lights.map((f) => Math.round(askedMs(f) / 1000)));
  const isCommon = (w: WhatIf): boolean => w.newDarks.every((length) => used.has(parseInt(length, 10)));
  // The setting of the best combination, for consistency on the page.
  const together = night.replay.best?.settings ?? [];
  const inBest = good.find((w) => w.settings.length > 0 && w.settings.every((setting) => together.includes(setting)));
  if (inBest) return inBest;
  return good.find((w) => w.newDarks.length === 0) ?? good.find(isCommon) ?? good[0] ?? null;
}

/** The basis of a finding's gain. */
export function ruleOf({ id, gain }: WhatIf): NonNullable<FindingDraft['rule']> {
  return { id, gainMs: gain.meanMs };
}

/** The range of the replay's runs, if worth mentioning: ` (12 min to 25 min)`. */
function spreadOf({ lowMs, meanMs, highMs }: WhatIf['gain']): string {
  return lowMs > 0 && highMs - lowMs > Math.max(CLEAR_MS, 0.2 * meanMs) ? ` (${about(lowMs)} to ${about(highMs)})` : '';
}

/** The replay's answer to one question, if the replay is reliable enough. */
export function whatIfOf({ replay }: NightFacts, id: string): WhatIf | null {
  if (!isReplayed(replay) || replay.confidence === 'low') return null;
  return replay.whatIfs.find((w) => w.id === id) ?? null;
}

/**
 * What a train gains from less time with its shutter closed: the additional time kept in the replay, since the other
 * trains' cadence contributes; without a replay, the fraction kept per working hour.
 */
export function winOfTime(
  night: NightFacts,
  train: string,
  ms: number,
  whatIf: string,
): { readonly winMs: number; readonly evidence: string; readonly isReplayed: boolean; readonly title: string } {
  const replayed = whatIfOf(night, whatIf);
  if (replayed)
    return {
      // Less than a minute is not reported.
      winMs: replayed.gain.meanMs >= NOTICED_MS ? Math.round(replayed.gain.meanMs) : 0,
      evidence:
        replayed.gain.meanMs >= NOTICED_MS
          ? `replayed so, the night keeps ${about(replayed.gain.meanMs)} more on all trains together` +
            spreadOf(replayed.gain)
          : 'replayed so, the night keeps no more' +
            (night.accounts.dithers.length > 0 ? ': their frames fall out of step with the dithers' : ''),
      isReplayed: true,
      title: replayed.title,
    };
  const share = keptShare(night, train);
  return {
    winMs: Math.round(ms * share),
    evidence:
      share > 0
        ? `recoverable: the ${percent(share)} of each working hour that ${train} kept`
        : `${train} kept nothing on this night: what its hours are worth is not known`,
    isReplayed: false,
    title: '',
  };
}

/** Additional costs of a what-if, as advice: ` It needs new darks: 300 s on wren.` Empty if there are none. */
export function darksSentence({ newDarks }: WhatIf): string {
  return newDarks.length === 0 ? '' : ` It needs new darks: ${listed(newDarks)}.`;
}

/** The rule that the replay advises, with what it wins; the same words in every finding that rests on it. */
export function replayedAdvice(best: WhatIf): string {
  return (
    `Try this: ${inSentence(best.title)}. Replayed with that rule, the night keeps ${about(best.gain.meanMs)} more ` +
    `on all trains together.${darksSentence(best)}`
  );
}

/** Accounts of a train at work. */
const WORK: ReadonlySet<Account> = new Set<Account>([
  'kept',
  'doubtful',
  'lost',
  'readout',
  'dither-wait',
  'dither',
  'focus',
  'filter',
  'partner-wait',
]);

/** The fraction of a train's working time that became kept exposure: the value of a minute of darkness to it, 0…1. */
export function keptShare(night: NightFacts, train: string): number {
  const ledger = night.accounts.ledgers.find((l) => l.train === train);
  return ledger === undefined ? 0 : keptShareOf(ledger);
}

/** Many findings ask, some for each of their minutes, and a ledger has several segments a frame. */
const keptShareOf = oncePer(({ segments, totalsMs }: TrainLedger): number => {
  let workedMs = 0;
  for (const { account, span } of segments)
    if (WORK.has(account) || (account === 'unexplained' && durationMs(span) <= LONGEST_PAUSE_MS))
      workedMs += durationMs(span);
  return workedMs > 0 ? totalsMs.kept / workedMs : 0;
});
