/** A target centred repeatedly although nothing had moved the mount off it. */
import {
  CAUTION,
  clip,
  counted,
  duration,
  durationMs,
  listed,
  sum,
  type Activity,
  type Interval,
  type NightFacts,
} from '../model/index.js';
import type { FindingModule, TrainSpan } from './finding.js';
import { firstOf, fromTo } from './wording.js';

export const centring: FindingModule<{ readonly minimumMinutes: number; readonly minimumRuns: number }> = {
  id: 'centring',
  title: 'Repeated centring',
  needs: ['event-log', 'lights'],
  // A guided target stays in place until the mount slews away; common practice, no source.
  defaults: { minimumMinutes: 10, minimumRuns: 2 },
  find(night, { minimumMinutes, minimumRuns }) {
    const runs = repeatsOf(night);
    const taken = night.accounts.ledgers.flatMap(({ train, segments }) =>
      segments
        .filter(({ account }) => account === 'pointing')
        .flatMap(({ span }) => clip(runs, span).map((own): TrainSpan => ({ train, span: own }))),
    );
    const costMs = sum(taken.map(({ span }) => durationMs(span)));
    if (runs.length < minimumRuns || costMs < minimumMinutes * 60_000) return [];
    const trains = [...new Set(taken.map(({ train }) => train))];
    return [
      {
        title:
          `The target was centred again ${counted(runs.length, 'time')}, ` +
          `which took ${duration(sum(runs.map(durationMs)))}`,
        costMs,
        evidence: [
          ...firstOf(runs.map((run) => `${fromTo(run, night)}: ${duration(durationMs(run))}`)),
          `${listed(trains)} took no exposure meanwhile; there had been no slew, flip or hold since the last ` +
            'centring, and the target was the same',
        ],
        advice:
          'Centre a target at its start and after the flip, and leave it to the guiding in between. If it ' +
          'still drifts, look for the cause (flexure, polar misalignment, a guide star on ' +
          'another telescope); if centring takes minutes, try a looser tolerance and shorter exposures for it.',
        confidence: 'medium',
        links: [{ text: 'Ledger', anchor: 'ledger' }],
        caution: CAUTION,
        minutes: taken,
      },
    ];
  },
};

/** Centrings of a target already centred, with nothing in between that would misplace the mount. */
function repeatsOf({ timeline, accounts }: NightFacts): Interval[] {
  const inOrder = [...timeline.activities].sort((a, b) => a.span.startMs - b.span.startMs);
  const isAstray = ({ kind }: Activity): boolean => kind === 'slew' || kind === 'flip' || kind === 'hold';
  const targetAt = (atMs: number): string | undefined =>
    accounts.lights.find(({ exposure }) => exposure.startMs >= atMs)?.target;
  const centres = inOrder.filter(({ kind }) => kind === 'centre');
  return centres.flatMap(({ span }, i) => {
    const before = centres[i - 1]?.span;
    // Attempts of one centring follow each other without an exposure between them.
    const isNew =
      before === undefined ||
      inOrder.some((a) => isAstray(a) && a.span.endMs > before.endMs && a.span.startMs < span.endMs) ||
      targetAt(before.endMs) !== targetAt(span.endMs) ||
      !accounts.lights.some(({ exposure }) => exposure.startMs >= before.endMs && exposure.endMs <= span.startMs);
    return isNew ? [] : [span];
  });
}
