/**
 * Stars that dimmed on every train on the field: a cloud in the middle of a target; an obstruction of both, or a cloud,
 * at the beginning or end of a target.
 */
import {
  counted,
  hull,
  intersect,
  listed,
  percent,
  type Interval,
  type JudgedFrame,
  type NightFacts,
} from '../model/index.js';
import { APART_MS, fluxOf, isDimmed } from './dimmed-frames.js';
import type { FindingDraft, FindingModule } from './finding.js';
import { exposedMs, exposures } from './trains.js';
import { clock, frameLinks, fromTo } from './wording.js';

/** Consecutive dimmed frames of one target, for all trains together. */
interface Stretch {
  readonly target: string | undefined;
  readonly frames: readonly JudgedFrame[];
  readonly span: Interval;
}

export const dimmedTogether: FindingModule<{ readonly minimumFrames: number; readonly clearShare: number }> = {
  id: 'dimmed-together',
  title: 'Light lost on all trains',
  needs: ['sized-stars', 'lights'],
  // Another train's light counts as unimpaired from this fraction on. Common practice, no source.
  defaults: { minimumFrames: 3, clearShare: 0.85 },
  find(night, { minimumFrames, clearShare }) {
    return stretchesOf(night)
      .filter(({ frames }) => frames.length >= minimumFrames)
      .filter((stretch) => !isAlone(stretch, night, clearShare))
      .map((stretch) => draftOf(stretch, night));
  },
};

function draftOf(stretch: Stretch, night: NightFacts): FindingDraft {
  const { target, frames, span } = stretch;
  const edge = edgeOf(stretch, night);
  const trains = night.gathered.trains.map(({ id }) => id).filter((id) => frames.some(({ train }) => train === id));
  const shares = frames.flatMap((frame) => fluxOf(frame, night) ?? []);
  return {
    title:
      `${target === undefined ? 'Stars' : `${target}’s stars`} lost light in ${counted(frames.length, 'frame')} of ` +
      `${listed(trains)}` +
      (edge === null ? '' : edge === 'begun' ? ' when it was begun' : ' at its end'),
    costMs: exposedMs(frames),
    frames: frames.length,
    evidence: [
      fromTo(span, night) +
        (shares.length === 0 ? '' : `: down to ${percent(Math.min(...shares))} of the light of the best frames`),
      ...placeLines(frames, night),
      ...(edge === null ? ['the same field was clear before and after: cloud or haze'] : []),
    ],
    advice:
      edge === null
        ? 'Nothing to change: cloud passes. Leave the lost frames out of the stack and weight the doubtful ones.'
        : `Check by day what is in that direction: a tree, a wall or the edge of the roof. If there is something, ` +
          (edge === 'begun' ? `begin ${target} later` : `leave ${target} sooner`) +
          ' and enter it in the rig file as horizon: [[azimuth, altitude], …], so that plan and report allow for it. ' +
          'If not, it was cloud.',
    winMs: 0,
    confidence: edge === null ? 'medium' : 'low',
    links: [{ text: 'Stars', anchor: 'stars' }, ...frameLinks(frames, night, 3)],
    minutes: exposures(frames),
  };
}

/** Frames harmed only by lost light, in order. */
function stretchesOf(night: NightFacts): Stretch[] {
  const stretches: Stretch[] = [];
  for (const frame of night.accounts.lights) {
    if (!isDimmed(frame, night)) continue;
    const { target } = frame;
    const at = stretches.findLastIndex((s) => s.target === target);
    const last = stretches[at];
    if (last && frame.exposure.startMs - last.span.endMs <= APART_MS) {
      const frames = [...last.frames, frame];
      stretches[at] = { target, frames, span: hull([last.span, frame.exposure]) ?? last.span };
    } else stretches.push({ target, frames: [frame], span: frame.exposure });
  }
  return stretches;
}

/** Whether a train measured meanwhile kept its light: then it was not a cloud, and belongs to another finding. */
function isAlone({ target, frames, span }: Stretch, night: NightFacts, clearShare: number): boolean {
  const dimmed = new Set(frames.map(({ train }) => train));
  return night.accounts.lights.some((other) => {
    const share = fluxOf(other, night);
    const isOther = !dimmed.has(other.train) && other.target === target;
    return isOther && intersect(other.exposure, span) !== null && share !== null && share >= clearShare;
  });
}

/** Whether each of its trains began, or ended, the target this way; a whole target is neither. */
function edgeOf({ target, frames }: Stretch, night: NightFacts): 'begun' | 'ended' | null {
  const own = new Set(frames.map(({ id }) => id));
  const trains = [...new Set(frames.map(({ train }) => train))];
  const ends = trains.map((train) => {
    const lights = night.accounts.lights.filter((f) => f.train === train && f.target === target);
    const isOwn = (f: JudgedFrame | undefined): boolean => f !== undefined && own.has(f.id);
    return { begun: isOwn(lights[0]), ended: isOwn(lights.at(-1)) };
  });
  if (target === undefined || ends.every(({ begun, ended }) => begun && ended)) return null;
  if (ends.every(({ begun }) => begun)) return 'begun';
  return ends.every(({ ended }) => ended) ? 'ended' : null;
}

/** Position of the field at both ends of the interval, for checking on site. */
function placeLines(frames: readonly JudgedFrame[], night: NightFacts): string[] {
  const placed = frames.flatMap(({ sky, exposure }) => (sky === null ? [] : [{ sky, exposure }]));
  const [first] = placed;
  const last = placed.at(-1);
  if (!first || !last) return [];
  const at = ({ sky: { altitudeDeg, azimuthDeg }, exposure }: typeof first): string =>
    `altitude ${altitudeDeg.toFixed(0)}°, azimuth ${azimuthDeg.toFixed(0)}° at ${clock(exposure.startMs, night)}`;
  return [`the field was at ${at(first)}${last === first ? '' : `, ${at(last)}`}`];
}
