/** Exposures that ended before their time: what came before each, as far as the logs show it. */
import {
  CAUTION,
  counted,
  duration,
  durationMs,
  groupBy,
  GUIDING_OFF_KINDS,
  guidingOffLimitMs,
  isActivityOf,
  lightsOf,
  listed,
  MOUNT_KINDS,
  sum,
  type Activity,
  type JudgedFrame,
  type NightFacts,
} from '../model/index.js';
import type { FindingDraft, FindingModule } from './finding.js';
import { askedMs, exposedMs, exposures } from './trains.js';
import { clock, firstOf, frameLinks } from './wording.js';

/** What follows an abort within this time may be its reason, ms. Common practice, no source. */
const SOON_MS = 30_000;
/** What began this shortly before the exposure may be its reason, too, ms: guiding lost as the shutter opened. */
const JUST_BEFORE_MS = 5000;

/** What came before the abort. The order is that of precedence: what stops a program comes before what it does then. */
type Reason = 'hold' | 'guiding' | 'mount' | 'focus' | 'stated' | 'last' | 'unknown';

interface Abort {
  readonly frame: JudgedFrame;
  readonly reason: Reason;
  /** The activity that shows it. */
  readonly by?: Activity;
}

export const abortedExposures: FindingModule<{ readonly minimumFrames: number }> = {
  id: 'aborted-exposures',
  title: 'Exposures ended early',
  needs: ['event-log', 'lights'],
  defaults: { minimumFrames: 1 },
  find(night, { minimumFrames }) {
    return night.gathered.trains.flatMap(({ id }): FindingDraft[] => {
      const lights = lightsOf(night, id);
      const own = lights.filter(isEndedEarly).map((frame) => abortOf(frame, frame === lights.at(-1), night));
      if (own.length < minimumFrames) return [];
      const frames = own.map(({ frame }) => frame);
      const asked = frames.filter((f) => f.askedMs !== undefined);
      const missingMs = sum(asked.map((f) => Math.max(0, askedMs(f) - durationMs(f.exposure))));
      // What cost most comes first, in the evidence and in the advice.
      const byReason = [...groupBy(own, ({ reason }) => reason)].sort((a, b) => lengthOf(b[1]) - lengthOf(a[1]));
      const isMoving = byReason.some(([reason]) => reason === 'mount' || reason === 'hold');
      return [
        {
          title: `${id} ended ${counted(own.length, 'exposure')} early`,
          costMs: exposedMs(frames),
          frames: own.length,
          evidence: [
            ...byReason.map(([reason, some]) => evidenceOf(reason, some, night)),
            ...(missingMs > 0 ? [`${duration(missingMs)} short of the exposures asked for`] : []),
          ],
          advice: byReason
            .slice(0, 2)
            .map(([reason, some]) => adviceOn(reason, some, id, night))
            .join(' '),
          ...(isMoving ? { caution: CAUTION } : {}),
          confidence: byReason[0]?.[0] === 'unknown' || byReason[0]?.[0] === 'last' ? 'low' : 'medium',
          links: frameLinks(frames, night),
          minutes: exposures(frames),
        },
      ];
    });
  },
};

/** Aborted by its log, or shorter by its file than its log asked for; a file that lacks pixels is another matter. */
function isEndedEarly(frame: JudgedFrame): boolean {
  return frame.causes.some(({ kind }) => kind === 'cut-short') && frame.header?.isCutOff !== true;
}

const lengthOf = (own: readonly Abort[]): number => exposedMs(own.map(({ frame }) => frame));

function abortOf(frame: JudgedFrame, isLast: boolean, night: NightFacts): Abort {
  const { startMs, endMs } = frame.exposure;
  const around = night.timeline.activities.filter(
    ({ train, span }) =>
      (train === undefined || train === frame.train) &&
      span.startMs >= startMs - JUST_BEFORE_MS &&
      span.startMs <= endMs + SOON_MS,
  );
  const hold = around.find(({ kind }) => kind === 'hold');
  if (hold) return { frame, reason: 'hold', by: hold };
  // A rest of the guiding that began after the shutter had closed is no reason.
  const guiding = around.find((a) => isActivityOf(a, GUIDING_OFF_KINDS) && a.span.startMs <= endMs);
  const focus = around.find(({ kind }) => kind === 'focus');
  if (guiding && !focus) return { frame, reason: 'guiding', by: guiding };
  const mount = around.find((a) => isActivityOf(a, MOUNT_KINDS) && a.kind !== 'settling');
  if (mount) return { frame, reason: 'mount', by: mount };
  if (focus) return { frame, reason: 'focus', by: focus };
  if (frame.abortWhy !== undefined) return { frame, reason: 'stated' };
  return { frame, reason: isLast ? 'last' : 'unknown' };
}

const WHAT_CAME: Readonly<Record<Reason, string>> = {
  hold: 'a hold began at that moment',
  guiding: 'guiding was lost or had stopped first',
  mount: 'the mount moved',
  focus: 'a refocus began at that moment',
  stated: 'the log states a reason',
  last: 'the last of the night, with nothing in the log before it',
  unknown: 'nothing in the logs comes before it',
};

function evidenceOf(reason: Reason, own: readonly Abort[], night: NightFacts): string {
  const at = own.map(
    ({ frame, by }) =>
      `${clock(frame.exposure.endMs, night)} after ${duration(durationMs(frame.exposure))}` +
      (frame.askedMs === undefined ? '' : ` of ${duration(frame.askedMs)}`) +
      reasonIn(frame.abortWhy ?? by?.why),
  );
  return `${WHAT_CAME[reason]}: ${firstOf(at).join(', ')}`;
}

const reasonIn = (why: string | undefined): string => (why === undefined ? '' : ` (${why})`);

/** What to change; only what the evidence carries. */
function adviceOn(reason: Reason, own: readonly Abort[], train: string, night: NightFacts): string {
  switch (reason) {
    case 'hold':
      return 'An exposure that a hold ends could not have been kept: nothing to change about it but the hold itself.';
    case 'guiding':
      return adviceOnGuiding(own, train, night);
    case 'mount': {
      const by = [...new Set(own.flatMap((one) => one.by?.causedBy ?? []))].filter((id) => id !== train);
      return (
        `Let ${by.length > 0 ? `${listed(by)} wait before moving the mount` : 'the mount wait'} until ${train}’s ` +
        'exposure has ended, or let its plan begin none that the next move would cut.'
      );
    }
    case 'focus':
      return `Let ${train} refocus when an exposure has ended, not during it.`;
    case 'stated':
      return `The log of ${train} gives the reason: see whether it was worth the exposure.`;
    case 'last':
      return `Let ${train}’s plan begin no exposure that it cannot finish, or end it by hand when the last is done.`;
    case 'unknown':
      return (
        `The logs do not say what ended ${own.length === 1 ? 'it' : 'them'}: look at what ${train}’s program ` +
        `reported at ${firstOf(own.map(({ frame }) => clock(frame.exposure.endMs, night))).join(', ')}.`
      );
  }
}

/**
 * An exposure whose guiding comes back within what the rules allow would not have been lost: it was ended too soon.
 */
function adviceOnGuiding(own: readonly Abort[], train: string, night: NightFacts): string {
  const { rules } = night.gathered;
  const within = own.filter(
    ({ frame, by }) => by !== undefined && durationMs(by.span) <= guidingOffLimitMs(askedMs(frame), rules),
  );
  if (within.length < own.length / 2)
    return 'Without guiding the exposures would have been lost in any case: see why the guiding was lost.';
  const longestMs = Math.max(...within.flatMap(({ by }) => (by === undefined ? [] : [durationMs(by.span)])));
  return (
    `Guiding was back within ${duration(longestMs)} in ${within.length} of ${own.length}: let ${train} wait that ` +
    'long before it ends an exposure. Such a frame is doubtful by the rules, not lost.'
  );
}
