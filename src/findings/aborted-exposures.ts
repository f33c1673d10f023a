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

/** What is this near to an abort may be its reason, ms. Common practice, no source. */
const SOON_MS = 30_000;

/** What came before the abort. The order is that of precedence: what stops a program comes before what it does then. */
type Reason = 'unsaved' | 'hold' | 'guiding' | 'mount' | 'focus' | 'stated' | 'last' | 'unknown';

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
      const isMoving = byReason.some(([reason]) => reason === 'mount');
      return [
        {
          title: own.every(({ reason }) => reason === 'unsaved')
            ? `${counted(own.length, 'exposure')} of ${id} ${own.length === 1 ? 'was' : 'were'} never written to disk`
            : `${id} ended ${counted(own.length, 'exposure')} early`,
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
  const { endMs } = frame.exposure;
  if (frame.aborted === true && frame.askedMs !== undefined && durationMs(frame.exposure) >= frame.askedMs)
    return { frame, reason: 'unsaved' };
  const at = { startMs: endMs - SOON_MS, endMs: endMs + SOON_MS };
  const around = night.timeline.activities.filter(
    ({ train, span }) =>
      (train === undefined || train === frame.train) && span.startMs < at.endMs && span.endMs > at.startMs,
  );
  const begun = around.filter(({ span }) => span.startMs >= at.startMs);
  const byReason: Readonly<Partial<Record<Reason, Activity | undefined>>> = {
    hold: begun.find(({ kind }) => kind === 'hold'),
    // Programs wait for a star; a rest of the guiding that began after the shutter had closed is no reason.
    guiding: around.find((a) => isActivityOf(a, GUIDING_OFF_KINDS) && a.span.startMs <= endMs),
    mount: begun.find((a) => isActivityOf(a, MOUNT_KINDS) && a.kind !== 'settling'),
    focus: begun.find(({ kind }) => kind === 'focus'),
  };
  // The log's own word comes first, with what shows it.
  const said = SAID.find(([pattern]) => frame.abortWhy !== undefined && pattern.test(frame.abortWhy));
  if (said) return { frame, reason: said[1], by: byReason[said[1]] };
  if (frame.abortWhy !== undefined) return { frame, reason: 'stated' };
  // The guiding rests for a refocus.
  const order: readonly Reason[] = byReason.focus ? ['hold', 'focus', 'mount'] : ['hold', 'guiding', 'mount'];
  const reason = order.find((one) => byReason[one] !== undefined);
  return reason ? { frame, reason, by: byReason[reason] } : { frame, reason: isLast ? 'last' : 'unknown' };
}

/** What a log says of it in English; other words are repeated as they are. */
const SAID: readonly (readonly [RegExp, Reason])[] = [
  [/\bguid|\bstar\b.*\blost|\blost\b.*\bstar\b/i, 'guiding'],
  [/cloud|overcast|rain|wind|gust|storm|weather|unsafe|safety|roof|dome|humid|dew/i, 'hold'],
  [/dither|slew|meridian|\bflip|\bmount\b/i, 'mount'],
  [/focus/i, 'focus'],
];

const WHAT_CAME: Readonly<Record<Reason, string>> = {
  unsaved: 'finished, but the log shows no file written',
  hold: 'for a hold',
  guiding: 'guiding was lost or had stopped',
  mount: 'the mount was to move',
  focus: 'for a refocus',
  stated: 'the log states a reason',
  last: 'the last of the night, and the log shows no cause',
  unknown: 'the logs show no cause',
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
    case 'unsaved':
      return (
        `${counted(own.length, 'exposure')} left no file: make sure that ${train}’s disk has room for the whole ` +
        'night, and that its program warns you when it cannot write.'
      );
    case 'hold':
      return 'An exposure that a hold cuts short could not have been kept. There is nothing to change here.';
    case 'guiding':
      return adviceOnGuiding(own, train, night);
    case 'mount': {
      const by = [...new Set(own.flatMap((one) => one.by?.causedBy ?? []))].filter((id) => id !== train);
      return (
        `Let ${by.length > 0 ? `${listed(by)} wait before moving the mount` : 'the mount wait'} until ${train}’s ` +
        'exposure has ended, or have its plan begin no exposure that the next move would cut short.'
      );
    }
    case 'focus':
      return `Let ${train} refocus when an exposure has ended, not during it.`;
    case 'stated':
      return `The log of ${train} says why it ended ${which(own, night)}: see whether it was worth the exposure.`;
    case 'last':
      return `Let ${train}’s plan begin no exposure that it cannot finish, or stop it by hand after the last one.`;
    case 'unknown':
      return `The logs do not say what ended ${which(own, night)}: check what ${train}’s program reported then.`;
  }
}

/** `the exposure at 21:48`, by its end. */
function which(own: readonly Abort[], night: NightFacts): string {
  const at = firstOf(own.map(({ frame }) => clock(frame.exposure.endMs, night)));
  const isAll = at.length === own.length;
  return `the exposure${own.length === 1 ? '' : 's'} at ${isAll ? listed(at) : at.join(', ')}`;
}

/**
 * An exposure whose guiding comes back within what the rules allow would not have been lost: it was ended too soon.
 */
function adviceOnGuiding(own: readonly Abort[], train: string, night: NightFacts): string {
  const { rules } = night.gathered;
  const seen = own.filter(({ by }) => by !== undefined);
  if (seen.length === 0)
    return `The log of ${train} blames the guiding; no guiding log shows whether it recovered in time.`;
  const within = own.filter(
    ({ frame, by }) => by !== undefined && durationMs(by.span) <= guidingOffLimitMs(askedMs(frame), rules),
  );
  if (within.length < seen.length / 2)
    return 'Without guiding the exposures would have been lost in any case: find out why the guiding was lost.';
  const longestMs = Math.max(...within.flatMap(({ by }) => (by === undefined ? [] : [durationMs(by.span)])));
  return (
    `Guiding was back within ${duration(longestMs)} in ${within.length} of ${counted(seen.length, 'case')}: let ` +
    `${train} wait that long before it ends an exposure. By the rules such a frame is doubtful, not lost.`
  );
}
