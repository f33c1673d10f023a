/**
 * Doubled stars where no log says why: the mount was moved while a shutter was open. Frames themselves tell
 * something of the cause: whether the field stayed where it was moved to, whether moves came in a rhythm, and whether
 * another train saw them.
 */
import {
  CAUTION,
  counted,
  lightsOf,
  listed,
  mayBeTail,
  median,
  ownValue,
  type Cause,
  type JudgedFrame,
  type NightFacts,
} from '../model/index.js';
import { isSeenBesides, wentOf } from './field-moves.js';
import type { FindingDraft, FindingModule } from './finding.js';
import { exposedMs, exposures } from './trains.js';
import { clock, frameLinks } from './wording.js';

/** What the frames tell of the moves. */
interface Moves {
  readonly train: string;
  readonly frames: readonly JudgedFrame[];
  /** After how many of them the field stayed, and after how many it came back. */
  readonly stayed: number;
  readonly back: number;
  /** Frames from one move to the next, if they come in a rhythm. */
  readonly every: number | null;
  /** How many of the frames another train exposed through, and in how many it saw the move. */
  readonly witnessed: number;
  readonly seen: number;
  /** How many second images may be tails that wind drew. */
  readonly tails: number;
}

/** Fewer gaps between moves are no rhythm. */
const FEWEST_GAPS = 3;

export const doubledStars: FindingModule<{
  readonly minimumFrames: number;
  readonly mostShare: number;
  readonly rhythmShare: number;
  readonly moveSeconds: number;
}> = {
  id: 'doubled-stars',
  title: 'Doubled stars',
  needs: ['measured-stars', 'lights'],
  // A dither and its settling take a quarter of a minute. Common practice, no source.
  defaults: { minimumFrames: 2, mostShare: 0.6, rhythmShare: 0.75, moveSeconds: 15 },
  find(night, { minimumFrames, mostShare, rhythmShare, moveSeconds }) {
    return night.gathered.trains.flatMap(({ id }): FindingDraft[] => {
      const moves = movesOf(id, night, rhythmShare);
      const { frames, stayed, back, every, seen, witnessed } = moves;
      if (frames.length < minimumFrames) return [];
      const isMost = (count: number): boolean => count > 0 && count >= mostShare * (stayed + back);
      const isOwn = witnessed > 0 && seen === 0;
      // A move that was asked for can wait for the shutter; what pushes the mount, or slips, cannot.
      const canWait = !isOwn && (isMost(stayed) || (every !== null && !isMost(back)));
      const saved = frames.filter(({ causes }) => causes.every(isOfDoubling));
      const winMs = exposedMs(saved) - saved.length * moveSeconds * 1000;
      return [
        {
          title:
            `${id}’s stars appear twice in ${counted(frames.length, 'frame')}` +
            (canWait ? ': the mount was moved under the open shutter' : ''),
          costMs: exposedMs(frames),
          frames: frames.length,
          evidence: [
            `at ${listed(frames.slice(0, 6).map((f) => clock(f.exposure.startMs, night)))}` +
              (frames.length > 6 ? `, and ${frames.length - 6} more` : ''),
            ...evidenceOf(moves),
            night.timeline.headersOnly ? 'there is no log to say what moved' : 'no log says what moved',
            ...(canWait
              ? [`recoverable: these exposures, less ${moveSeconds} s for each move that waits for them`]
              : []),
          ],
          advice: canWait
            ? adviceToWait(moves, isMost(stayed))
            : isOwn
              ? `Look at ${id} itself, not at the mount: a cable that pulls, a camera or focuser that slips, a ` +
                'mirror that shifts.'
              : `Look for what pushes the mount for a moment: wind, a cable that catches, someone at the pier` +
                (isMost(back)
                  ? '. A dither would not have moved back.'
                  : `, or a dither that does not wait for ${id}.`),
          ...(canWait ? { winMs: Math.max(0, winMs) } : { caution: CAUTION }),
          confidence: canWait && isMost(stayed) && every !== null ? 'high' : 'medium',
          links: [{ text: 'Stars', anchor: 'stars' }, ...frameLinks(frames, night, 6)],
          minutes: exposures(frames),
        },
      ];
    });
  },
};

function adviceToWait({ train, every }: Moves, hasStayed: boolean): string {
  const what = hasStayed ? ' and left it there' : '';
  return every === null
    ? `Find out what moved the mount while ${train}’s shutter was open${what}: a dither that does not wait, a ` +
        'second program, a hand controller. Let it wait until the exposure has ended.'
    : `Let dithers wait until ${train}’s exposure has ended, and its next exposure until the mount has settled: ` +
        `something moved the mount ${everyWords(every)}${what}, as a dither does.`;
}

const everyWords = (every: number): string => (every === 1 ? 'in every frame' : `about every ${every} frames`);

function evidenceOf({ frames, stayed, back, every, witnessed, seen, tails }: Moves): string[] {
  const known = stayed + back;
  return [
    ...(known === 0
      ? []
      : [
          `of ${counted(known, 'move')} with complete frames on either side, the field stayed at its new position ` +
            `after ${stayed} and came back after ${back}`,
        ]),
    ...(every === null ? [] : [`moves came ${everyWords(every)}`]),
    ...(witnessed === 0
      ? []
      : [
          `another train exposed through ${witnessed} of them: ` +
            (seen === 0 ? 'its stars appear once' : `its stars are doubled too in ${seen}`),
        ]),
    ...(tails === 0
      ? []
      : [`in ${tails} of ${frames.length} the second image is so close and faint that it may be a tail drawn by wind`]),
  ];
}

function movesOf(train: string, night: NightFacts, rhythmShare: number): Moves {
  const own = lightsOf(night, train);
  const frames = own.filter(isUnexplained);
  const went = frames.map((frame) => wentOf(frame, own, night));
  const witnesses = frames.flatMap((frame) => isSeenBesides(frame, night) ?? []);
  return {
    train,
    frames,
    stayed: went.filter((w) => w === 'stayed').length,
    back: went.filter((w) => w === 'back').length,
    every: rhythmOf(
      frames.map((frame) => own.indexOf(frame)),
      rhythmShare,
    ),
    witnessed: witnesses.length,
    seen: witnesses.filter(Boolean).length,
    tails: frames.filter(({ id }) => mayBeTail({ stars: ownValue(night.stars?.frames, id) ?? null, usual: null }))
      .length,
  };
}

/** Without a known interruption, the span of the cause is the exposure itself. */
function isUnexplained({ verdict, causes, exposure }: JudgedFrame): boolean {
  return (
    verdict !== 'kept' &&
    causes.some(
      ({ kind, span }) => kind === 'doubled' && span.startMs === exposure.startMs && span.endMs === exposure.endMs,
    )
  );
}

/** Two images that overlap are one wide star, and two apart have part of its light each. */
function isOfDoubling({ kind, verdict }: Cause): boolean {
  return kind === 'doubled' || kind === 'swollen' || (kind === 'dimmed' && verdict === 'doubtful');
}

/** The usual count of frames from one move to the next, if most are within a frame of it: chance has no such usual. */
function rhythmOf(at: readonly number[], share: number): number | null {
  const gaps = at.slice(1).map((index, i) => index - (at[i] ?? index));
  const usual = Math.round(median(gaps));
  const near = gaps.filter((gap) => Math.abs(gap - usual) <= (usual > 2 ? 1 : 0));
  return gaps.length >= FEWEST_GAPS && near.length >= share * gaps.length ? usual : null;
}
