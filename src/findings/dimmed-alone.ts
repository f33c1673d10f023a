/**
 * Stars that dimmed on one train but not on another on the same field: not a cloud, but dew, frost or an obstruction.
 */
import {
  CAUTION,
  counted,
  durationMs,
  groupBy,
  intersect,
  itemAt,
  median,
  percent,
  sortedBy,
  type JudgedFrame,
  type NightFacts,
} from '../model/index.js';
import { APART_MS, fluxOf, isDimmed } from './dimmed-frames.js';
import type { FindingDraft, FindingModule } from './finding.js';
import { exposedMs, exposures } from './trains.js';
import { clock, frameLinks } from './wording.js';

/** A dimmed frame, and the light on it and on the other trains at the same time, as fractions of their best. */
interface Dimmed {
  readonly frame: JudgedFrame;
  readonly own: number;
  readonly others: number;
}

export const dimmedAlone: FindingModule<{
  readonly minimumFrames: number;
  readonly clearShare: number;
  readonly mostShare: number;
}> = {
  id: 'dimmed-alone',
  title: 'Light lost on one train alone',
  needs: ['two-trains', 'sized-stars', 'lights'],
  // The others' light counts as unimpaired from this fraction on; this fraction of the train's consecutive dimmed
  // frames must be like that. Common practice, no source.
  defaults: { minimumFrames: 3, clearShare: 0.85, mostShare: 0.7 },
  find(night, { minimumFrames, clearShare, mostShare }) {
    return night.gathered.trains.flatMap(({ id }): FindingDraft[] => {
      const compared = night.accounts.lights.flatMap((frame) => (frame.train === id ? dimmedBeside(frame, night) : []));
      // A cloud at another hour does not rule out dew now.
      const alone = stretchesOf(compared).flatMap((stretch) => {
        const own = stretch.filter(({ others }) => others >= clearShare);
        return own.length < minimumFrames || own.length < mostShare * stretch.length ? [] : own;
      });
      if (alone.length === 0) return [];
      const frames = alone.map(({ frame }) => frame);
      return [
        {
          title: `${id}’s stars lost light in ${counted(frames.length, 'frame')} while another train’s did not`,
          costMs: exposedMs(frames),
          frames: frames.length,
          evidence: [
            ...[itemAt(alone, 0), ...(alone.length > 1 ? [itemAt(alone, alone.length - 1)] : [])].map(
              ({ frame, own, others }) =>
                `${clock(frame.exposure.startMs, night)}: ${percent(own)} of the light of ${id}’s best frames, ` +
                `${percent(others)} on another train`,
            ),
            'a cloud would have dimmed both',
          ],
          advice:
            `Look for dew or frost on ${id}: heater and its power, dew shield, front lens or mirrors; then for ` +
            'anything in its way (a cable, a cap, the edge of the roof, a tree), and check whether it was out of ' +
            'focus.',
          confidence: 'medium',
          caution: CAUTION,
          links: [{ text: 'Stars', anchor: 'stars' }, ...frameLinks(frames, night, 3)],
          minutes: exposures(frames),
        },
      ];
    });
  },
};

/** Consecutive dimmed frames. */
function stretchesOf(compared: readonly Dimmed[]): Dimmed[][] {
  const stretches: Dimmed[][] = [];
  for (const one of sortedBy(compared, ({ frame }) => frame.exposure.startMs)) {
    const last = stretches.at(-1)?.at(-1);
    if (last && one.frame.exposure.startMs - last.frame.exposure.endMs <= APART_MS) stretches.at(-1)?.push(one);
    else stretches.push([one]);
  }
  return stretches;
}

/** The frame, if dimming is what harmed it, and others of the same field were measured meanwhile. */
function dimmedBeside(frame: JudgedFrame, night: NightFacts): Dimmed[] {
  const own = fluxOf(frame, night);
  if (own === null || !isDimmed(frame, night)) return [];
  const beside = night.accounts.lights.filter((other) => other.train !== frame.train && isBeside(other, frame));
  const shares = [...groupBy(beside, ({ train }) => train).values()].flatMap((frames) => {
    const known = frames.flatMap((other) => fluxOf(other, night) ?? []);
    return known.length > 0 ? [median(known)] : [];
  });
  return shares.length === 0 ? [] : [{ frame, own, others: Math.max(...shares) }];
}

/** On the same target, for at least half of the shorter exposure. */
function isBeside(other: JudgedFrame, frame: JudgedFrame): boolean {
  const common = intersect(other.exposure, frame.exposure);
  const shorterMs = Math.min(durationMs(other.exposure), durationMs(frame.exposure));
  return other.target === frame.target && common !== null && durationMs(common) >= shorterMs / 2;
}
