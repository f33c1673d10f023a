/**
 * Stars long in one direction that no interruption and no guiding sample explains. Frames themselves tell something of
 * the cause: whether trails grow with the exposure, lie along the drift of the field, and show on another train.
 */
import {
  CAUTION,
  counted,
  duration,
  durationMs,
  lightsOf,
  listed,
  sum,
  type JudgedFrame,
  type NightFacts,
} from '../model/index.js';
import type { FindingDraft, FindingModule } from './finding.js';
import { causeWords, lengthWords, sideWords, steadinessWords, witnessWords } from './trail-words.js';
import {
  classesOf,
  growthByDrift,
  growthByLength,
  longestSeconds,
  subSeconds,
  trailsOf,
  type Trail,
  type TrailClass,
  type TrailGrowth,
} from './trails.js';
import { exposedMs, exposures, usualPauseMs } from './trains.js';
import { frameLinks } from './wording.js';

/** Shorter subs than this, seconds, are no way out: read noise. Common practice, no source. */
const SHORTEST_SUB = 10;
/** Without a pause between subs on record, ms. Common practice, no source. */
const PAUSE_MS = 3000;

export const trailedStars: FindingModule<{ readonly minimumFrames: number; readonly minimumShare: number }> = {
  id: 'trailed-stars',
  title: 'Stars long in one direction',
  needs: ['measured-stars', 'lights'],
  // Common practice, no source.
  defaults: { minimumFrames: 5, minimumShare: 0.1 },
  find(night, { minimumFrames, minimumShare }) {
    return night.gathered.trains.flatMap(({ id }): FindingDraft[] => {
      const trails = trailsOf(id, night);
      const trailed = trails.filter(({ isTrailed }) => isTrailed);
      if (trailed.length < minimumFrames || trailed.length < minimumShare * trails.length) return [];
      const classes = classesOf(trails, minimumFrames);
      const most = [...classes].sort((a, b) => trailedIn(b) - trailedIn(a))[0];
      if (!most || trailedIn(most) === 0) return [];
      const byLength = growthByLength(classes);
      const growth = byLength === null ? growthByDrift(most, night) : byLength;
      const harmed = trailed.flatMap(({ frame }) => (isLostToIt(frame) ? [frame] : []));
      const shorter = growth === null || growth === 'stays' ? null : shorterSubs(trails, growth, classes, night);
      return [
        {
          title: `${id}’s stars were long in one direction in ${trailed.length} of ${counted(trails.length, 'frame')}`,
          costMs: exposedMs(harmed),
          ...(harmed.length === 0 ? { price: counted(trailed.length, 'sub') } : {}),
          frames: trailed.length,
          evidence: [
            ...lengthWords(id, classes, night),
            ...causeWords(byLength, growth, classes, night),
            ...steadinessWords(most),
            ...sideWords(most),
            ...witnessWords(trailed, id, night),
            ...(shorter?.winMs === undefined
              ? []
              : [
                  `recoverable: with subs of ${shorter.seconds} s the trails of ${counted(shorter.saved, 'frame')} ` +
                    'that were not kept stay within the limit; longer subs that were kept lose more pauses',
                ]),
          ],
          advice: adviceOf(id, growth, shorter, night),
          ...(shorter?.winMs === undefined ? {} : { winMs: shorter.winMs }),
          confidence: growth === null || growth === 'stays' ? 'low' : 'medium',
          links: [{ text: 'Stars', anchor: 'stars' }, ...frameLinks(harmed, night, 4)],
          caution: CAUTION,
          ...(harmed.length > 0 ? { minutes: exposures(harmed) } : {}),
        },
      ];
    });
  },
};

const trailedIn = ({ trails }: TrailClass): number => trails.filter(({ isTrailed }) => isTrailed).length;

/** Frames that are not kept for another reason as well would not have been saved. */
function isLostToIt({ verdict, causes }: JudgedFrame): boolean {
  return verdict !== 'kept' && causes.some(({ kind }) => kind === 'trailed');
}

/** What shorter subs would have kept. */
interface Shorter {
  readonly seconds: number;
  /** Absent where no frame was lost. */
  readonly winMs?: number;
  readonly saved: number;
}

function shorterSubs(
  trails: readonly Trail[],
  growth: TrailGrowth,
  classes: readonly TrailClass[],
  night: NightFacts,
): Shorter | null {
  const ratio = night.gathered.rules.trailedDoubtfulElongation;
  const seconds = subSeconds(
    trails.filter(({ isTrailed }) => isTrailed),
    growth,
    ratio,
    classes.map((c) => c.seconds),
  );
  if (seconds < SHORTEST_SUB) return null;
  const pauseMs = usualPauseMs(
    night,
    trails.map(({ frame }) => frame),
  );
  const duty = (of: number): number => of / (of + (Number.isNaN(pauseMs) ? PAUSE_MS : pauseMs) / 1000);
  const longer = trails.filter((trail) => trail.seconds > seconds);
  const saved = longer.filter(
    (trail) =>
      trail.frame.verdict !== 'kept' &&
      trail.frame.causes.every(({ kind }) => kind === 'trailed') &&
      longestSeconds(trail, growth, ratio) >= seconds,
  );
  if (saved.length === 0) return { seconds, saved: 0 };
  const worth = (trail: Trail): number => (durationMs(trail.frame.exposure) * duty(seconds)) / duty(trail.seconds);
  const kept = longer.filter(({ frame }) => frame.verdict === 'kept');
  const winMs = sum(saved.map(worth)) - sum(kept.map((trail) => durationMs(trail.frame.exposure) - worth(trail)));
  return { seconds, saved: saved.length, winMs: Math.max(0, Math.round(winMs)) };
}

function adviceOf(
  train: string,
  growth: TrailGrowth | 'stays' | null,
  shorter: Shorter | null,
  night: NightFacts,
): string {
  const isGuided = night.gathered.guiding !== null;
  const mount = isGuided
    ? 'look for what gives way between the guider and this camera, and at the polar alignment'
    : 'guide, or look at the polar alignment, the balance, the drive and what pulls at the cables';
  if (growth === 'stays')
    return (
      `Look at ${train}’s optics before the mount: tilt of the camera, collimation, a pinched lens or mirror. Wind ` +
      'and a shaking pier draw short and long subs alike as well.'
    );
  if (growth !== null)
    return shorter === null
      ? `The field moves too fast even for short subs: ${mount}.`
      : `Expose ${train} no longer than ${duration(shorter.seconds * 1000)} as it stands, or mend what moves the ` +
          `field: ${mount}. Shorter subs pay more read noise and may need darks of their own.`;
  const used = [...new Set(lightsOf(night, train).map((f) => Math.round(durationMs(f.exposure) / 1000)))];
  return (
    `Take a few subs of ${train} a third as long as ${listed(used.slice(0, 1).map((s) => `${s} s`))}, and compare: a ` +
    `trail that shrinks with them is drawn by a field that moves, and then ${mount}; one that stays as long is the ` +
    'optics’: tilt, collimation. One that comes and goes is wind.'
  );
}
