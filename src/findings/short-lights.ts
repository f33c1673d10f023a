/**
 * Kept lights that are shorter than the others of their target and filter, where no log says how long they were to be:
 * ended early, or tests of framing and focus.
 */
import {
  counted,
  duration,
  durationMs,
  groupBy,
  lightsOf,
  sum,
  type JudgedFrame,
  type NightFacts,
} from '../model/index.js';
import type { FindingDraft, FindingModule } from './finding.js';
import { exposedMs } from './trains.js';
import { clock, firstOf, frameLinks } from './wording.js';

type Limits = Readonly<Record<'usualFrames' | 'usualShare' | 'shorter' | 'series' | 'mostShare', number>>;

/** Lights of one target, filter and length, shorter than the usual. */
interface Short {
  readonly group: string;
  readonly frames: readonly JudgedFrame[];
  readonly usualMs: number;
  readonly usual: number;
}

export const shortLights: FindingModule<Limits> = {
  id: 'short-lights',
  title: 'Lights shorter than their group',
  needs: ['lights'],
  // A series of short subs for bright cores is meant, and no small part of its group. Common practice, no source.
  defaults: { usualFrames: 6, usualShare: 0.5, shorter: 0.9, series: 3, mostShare: 0.02 },
  find(night, limits) {
    return night.gathered.trains.flatMap(({ id }): FindingDraft[] => {
      const unasked = lightsOf(night, id).filter((f) => f.askedMs === undefined && f.causes.length === 0);
      const groups = groupBy(unasked, ({ target, filter }) => JSON.stringify([target, filter]));
      const short = [...groups.values()].flatMap((own) => shortIn(own, limits));
      const frames = short.flatMap((one) => one.frames);
      if (frames.length === 0) return [];
      const isOne = frames.length === 1;
      return [
        {
          title:
            `${counted(frames.length, 'light')} of ${id} ${isOne ? 'is' : 'are'} shorter than the others of ` +
            `${isOne ? 'its' : 'their'} target and filter`,
          costMs: 0,
          price: `${duration(exposedMs(frames))} that ${isOne ? 'needs' : 'need'} darks of another length`,
          frames: frames.length,
          evidence: [
            ...firstOf(short.map((one) => evidenceOf(one, night))),
            'no log says how long they were meant to be',
          ],
          advice:
            `Leave ${isOne ? 'it' : 'them'} out of the stack if ended early, or taken to test framing or focus: ` +
            `${isOne ? 'it adds' : 'they add'} little, and the darks of the others do not match. A series meant for ` +
            'bright parts is stacked separately. The log of the capture program would say which it was.',
          confidence: 'low',
          links: [{ text: 'Calibration coverage', anchor: 'calibration' }, ...frameLinks(frames, night, 4)],
        },
      ];
    });
  },
};

/** By length, those much shorter than the length that most of the group have, if they are a small part of it. */
function shortIn(
  own: readonly JudgedFrame[],
  { usualFrames, usualShare, shorter, series, mostShare }: Limits,
): Short[] {
  const byLength = [...groupBy(own, (f) => Math.round(durationMs(f.exposure) / 1000))].sort(
    (a, b) => b[1].length - a[1].length,
  );
  const [usual] = byLength;
  if (!usual || usual[1].length < Math.max(usualFrames, usualShare * own.length)) return [];
  const usualMs = usual[0] * 1000;
  const group = [own[0]?.target, own[0]?.filter].filter(Boolean).join(', ') || 'no target';
  const wholeMs = sum(own.map(({ exposure }) => durationMs(exposure)));
  const isMeant = (frames: readonly JudgedFrame[]): boolean =>
    frames.length >= series && exposedMs(frames) >= mostShare * wholeMs;
  return byLength
    .filter(([seconds, frames]) => seconds * 1000 < shorter * usualMs && !isMeant(frames))
    .map(([, frames]) => ({ group, frames, usualMs, usual: usual[1].length }));
}

function evidenceOf({ group, frames, usualMs, usual }: Short, night: NightFacts): string {
  const at = firstOf(frames.map(({ exposure }) => clock(exposure.startMs, night))).join(', ');
  const [first] = frames;
  const length = first === undefined ? '' : duration(durationMs(first.exposure));
  return `${group}: ${length} at ${at}, where ${usual} others have ${duration(usualMs)}`;
}
