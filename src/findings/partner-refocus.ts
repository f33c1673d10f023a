/**
 * A refocus on the train that carries the guider, which paused the guiding under another train's open shutter.
 */
import {
  about,
  CAUTION,
  counted,
  groupBy,
  listed,
  overlapMs,
  type Cause,
  type JudgedFrame,
  type NightFacts,
  type WhatIf,
} from '../model/index.js';
import type { FindingModule } from './finding.js';
import { exposedMs, exposures, NOTICED_MS, whatIfOf } from './trains.js';
import { clock, firstOf, frameLinks } from './wording.js';

/** Smaller gains are not worth new hardware, ms. */
const HARDWARE_MS = 300_000;

interface Harmed {
  readonly frame: JudgedFrame;
  readonly cause: Cause;
  readonly by: string;
}

export const partnerRefocus: FindingModule<{ readonly minimumFrames: number }> = {
  id: 'partner-refocus',
  title: 'Refocus during the other train’s subs',
  needs: ['two-trains', 'guiding-events', 'lights'],
  defaults: { minimumFrames: 1 },
  find(night, { minimumFrames }) {
    const harmed = night.accounts.lights.flatMap((frame): Harmed[] => {
      const cause = frame.causes.find(
        (c) =>
          (c.kind === 'guiding-off' || c.kind === 'trailed') && c.causedBy !== undefined && c.causedBy !== frame.train,
      );
      return frame.verdict !== 'kept' && cause?.causedBy !== undefined ? [{ frame, cause, by: cause.causedBy }] : [];
    });
    return [...groupBy(harmed, (h) => h.by)].flatMap(([by, own]) => {
      if (own.length < minimumFrames) return [];
      const frames = own.map((h) => h.frame);
      const costMs = exposedMs(frames);
      const runs = night.timeline.activities.filter(
        (a) => a.kind === 'focus' && a.train === by && own.some(({ cause }) => overlapMs(a.span, cause.span) > 0),
      );
      const refocus = runs.length > 1 ? 'refocuses' : 'refocus';
      const isScope = night.gathered.guideSource.source === 'guide-scope';
      const replayed = isScope ? undefined : winOf(night, costMs);
      // What the replay finds no gain in is no advice, where the other way has one.
      const isScopeBetter = replayed?.by === 'guide-scope';
      return [
        {
          title: frames.some((f) => f.verdict === 'lost')
            ? `${by}’s ${refocus} cost ${listed([...new Set(frames.map((f) => f.train))])} ` +
              `${counted(frames.length, 'frame')}`
            : `${by}’s ${refocus} made ${counted(frames.length, 'frame')} of ` +
              `${listed([...new Set(frames.map((f) => f.train))])} doubtful`,
          costMs,
          frames: frames.length,
          evidence: [
            ...firstOf(
              own.map(
                ({ frame, cause }) =>
                  `${clock(frame.exposure.startMs, night)} ${frame.train} ${frame.filter ?? ''}: ${cause.evidence}`,
              ),
            ),
            ...(replayed && replayed.winMs > 0
              ? [
                  `replayed ${isScopeBetter ? 'with a separate guide scope' : 'so'}, the night keeps ` +
                    `${about(replayed.winMs)} more on all trains together` +
                    (isScopeBetter ? '; refocusing together at a dither gains nothing: the trains wait for it' : ''),
                ]
              : []),
          ],
          advice: isScope
            ? `Refocus without pausing the guiding: the guide scope does not see ${by}’s focuser, and no frame is ` +
              'harmed.'
            : isScopeBetter
              ? `Guide with a separate guide scope: a refocus on ${by} then leaves the guiding alone. First test ` +
                `whether it flexes against the trains. Without one, refocus ${by} no more often than its stars need.`
              : `Refocus all trains together, while their shutters are closed for a dither: no frame is harmed ` +
                `then. A separate guide scope works too: a refocus on ${by} then leaves ` +
                'the guiding alone.',
          ...(isScope ? { winMs: costMs } : replayed && { winMs: replayed.winMs }),
          confidence: isScopeBetter ? ('medium' as const) : ('high' as const),
          links: frameLinks(frames, night),
          ...(isScope ? {} : { caution: CAUTION }),
          minutes: exposures(frames),
        },
      ];
    });
  },
};

/**
 * The gain in the replay of refocusing together, or with a guide scope if that gains nothing; undefined if the replay
 * is unreliable.
 */
function winOf(night: NightFacts, costMs: number): { readonly winMs: number; readonly by: string } | undefined {
  const ways = ['focus-together', 'guide-scope'].flatMap((id) => whatIfOf(night, id) ?? []);
  const isWorthIt = ({ id, gain }: WhatIf): boolean =>
    id === 'guide-scope' ? Math.min(costMs, gain.meanMs) >= HARDWARE_MS : gain.meanMs >= NOTICED_MS;
  const way = ways.find(isWorthIt) ?? ways[0];
  return way && { winMs: Math.round(Math.max(0, way.gain.meanMs)), by: way.id };
}
