/**
 * Dithers that moved the mount under an open shutter, another train's or their own, because nothing made them wait.
 */
import {
  about,
  counted,
  duration,
  durationMs,
  groupBy,
  median,
  type DitherCycle,
  type JudgedFrame,
} from '../model/index.js';
import { isDithered, isLostToAlone } from './dithered.js';
import type { FindingModule } from './finding.js';
import { bestWhatIf, exposedMs, exposures } from './trains.js';
import { clock, firstOf, frameLinks, inSentence } from './wording.js';

/** Where no more of the dithers went through a shutter, the others wait as they should. */
const STRAY_SHARE = 0.2;

export const ditherThrough: FindingModule<{ readonly minimumFrames: number }> = {
  id: 'dither-through',
  title: 'Dithers during subs',
  needs: ['dithers', 'lights'],
  defaults: { minimumFrames: 1 },
  find(night, { minimumFrames }) {
    const harmed = night.accounts.lights.filter((f) => f.verdict !== 'kept' && isDithered(f, night.accounts.dithers));
    return [...groupBy(harmed, (f) => f.train)].flatMap(([train, frames]) => {
      if (frames.length < minimumFrames) return [];
      const costMs = exposedMs(frames);
      const { dithers } = night.accounts;
      const through = dithers.filter((cycle) => frames.some((f) => isDithered(f, [cycle]))).length;
      const isStray = through <= STRAY_SHARE * dithers.length;
      const isAlone = night.gathered.trains.length === 1;
      const waits = isStray || isAlone ? null : bestWhatIf(night, (w) => w.id.startsWith('dither-waits'));
      const alone = isAlone && !isStray ? ownWaits(frames, dithers) : null;
      return [
        {
          title: `Dithers moved the mount during ${counted(frames.length, 'sub')} of ${train}`,
          costMs,
          frames: frames.length,
          evidence: [
            ...(frames.some((f) => f.verdict === 'doubtful') ? [doubtfulLine(frames)] : []),
            ...firstOf(
              frames.map(
                (f) => `${clock(f.exposure.startMs, night)} ${f.filter ?? ''}: ${f.causes[0]?.evidence ?? f.verdict}`,
              ),
            ),
            ...(waits
              ? [
                  'replayed with dithers that wait for every shutter, the night keeps ' +
                    `${about(waits.gain.meanMs)} more on all trains together, waits and all`,
                ]
              : []),
            ...(alone ? [`recoverable: these subs, less the ${duration(alone.spentMs)} that the dithers take`] : []),
          ],
          advice: isStray
            ? `The other dithers found ${train}’s shutter closed: find out what started ` +
              `${through === 1 ? 'this one' : `these ${through}`}: a hand, a second program or a restart.`
            : alone
              ? `Let each dither wait until ${train}’s exposure has ended, and its next exposure until the mount has ` +
                'settled.'
              : `Let each dither wait until ${train}’s shutter is closed` +
                (waits
                  ? `: “${inSentence(waits.title)}” did best. `
                  : `, and let ${train} begin no exposure when one is due. `) +
                `If the computers cannot agree, dither less often: each dither costs ${train} a frame.`,
          foldedAdvice: isStray ? '' : `Let each dither wait until ${train}’s shutter is closed as well.`,
          ...(waits ? { winMs: Math.round(Math.min(costMs, waits.gain.meanMs)) } : {}),
          ...(alone ? { winMs: alone.winMs } : {}),
          confidence: frames.every((f) => f.causes.every((c) => c.certainty === 'measured'))
            ? ('high' as const)
            : ('medium' as const),
          links: [{ text: 'Every dither', anchor: 'dithers' }, ...frameLinks(frames, night, 6)],
          minutes: exposures(frames),
        },
      ];
    });
  },
};

/** What a train without partners wins if its dithers wait for it: then they take time that they did not take before. */
function ownWaits(
  frames: readonly JudgedFrame[],
  dithers: readonly DitherCycle[],
): { readonly winMs: number; readonly spentMs: number } {
  const through = dithers.filter((cycle) => frames.some((f) => isDithered(f, [cycle])));
  const each = median(through.map(({ move, settle }) => durationMs(move) + (settle ? durationMs(settle) : 0)));
  const spentMs = through.length * each;
  const saved = frames.filter((f) => isLostToAlone(f, through));
  return { spentMs, winMs: Math.round(Math.max(0, exposedMs(saved) - spentMs)) };
}

/** `25 of them are doubtful: look at their stars`. */
function doubtfulLine(frames: readonly JudgedFrame[]): string {
  const doubtful = frames.filter((f) => f.verdict === 'doubtful').length;
  if (frames.length === 1) return 'it is doubtful: look at its stars';
  return doubtful === 1
    ? '1 of them is doubtful: look at its stars'
    : `${doubtful} of them are doubtful: look at their stars`;
}
