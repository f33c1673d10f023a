import {
  isLateOrAhead,
  KEEPS_TO_NONE,
  NO_WITNESS,
  clockDifference,
  clockStatements,
  counted,
  driftWords,
  groupBy,
  listed,
  restsOnClock,
  type Clock,
  type ClockJump,
  type ClockNote,
  type ClockStatement,
  type JudgedFrame,
} from '../../../model/index.js';
import type { DithersInStars } from './round-stars.js';

/**
 * What the first screen must say about clocks: those with an unknown offset, since verdicts depend on it, and those
 * brought together without evidence which is right, since every time on the page depends on that.
 *
 * @param inStars whether dithers during its subs show in a train's stars
 */
export function clockNotices(
  clocks: readonly ClockNote[],
  clock: Clock,
  inStars: (train: string) => DithersInStars = () => null,
): string[] {
  const statements = clockStatements(clocks);
  const unknown = statements.filter((c) => !c.isKnown);
  const oneSided = statements.filter((c) => c.corrected && !c.isAbsolute);
  return [
    ...statements.flatMap((c) => (c.step === undefined ? [] : [stepText(c, c.step, clock)])),
    ...jumped(statements).map(([c, jump]) => jumpText(c, jump, clock)),
    ...[...groupBy(unknown.filter(isByItself), (c) => c.against)].map(([against, own]) =>
      byItselfText(own, against, inStars),
    ),
    ...unknown
      .filter(isLateOrAhead)
      .map(
        (c) =>
          `Either the clock of ${c.train} is ${side(c.aheadMs)}, or ${c.aheadMs > 0 ? c.train : 'the other train'} ` +
          `starts ${clockDifference(c.aheadMs)} later after each dither: both fit (${c.by}), so nothing was ` +
          `shifted; ${atStake(c)}. Compare both computers with a time server before dusk. If the clock is off, write ` +
          `clockOffset: ${(c.aheadMs / 1000).toFixed(1)} under ${c.train} in the rig file; if the clocks agree, ` +
          'write 0 and find out what the program waits for.',
      ),
    ...unknown
      .filter((c) => !c.jump && c.by !== KEEPS_TO_NONE && !isLateOrAhead(c))
      .map(
        (c) =>
          `The clock is not known: it cannot be determined how far ${subject(c)} ahead of ` +
          `${c.against}${alternatives(c)}. Its times are left as written; ${atStake(c)}. clockOffset: in the rig ` +
          `file settles it${proposal(c)}.`,
      ),
    ...(oneSided.length === 0
      ? []
      : [
          `The clocks of the computers differ: ${listed(oneSided.map(difference))}. They were aligned, but ` +
            `it is not known which one is right: ${brought(oneSided)}.`,
        ]),
  ];
}

const isByItself = ({ jump, by }: ClockStatement): boolean => !jump && by === KEEPS_TO_NONE;

/** Usual where each train has a mount of its own, and a fault only where they share one. */
function byItselfText(
  own: readonly ClockStatement[],
  against: string,
  inStars: (train: string) => DithersInStars,
): string {
  const trains = [...new Set(own.map(({ train }) => train))];
  const isOne = trains.length === 1;
  const stars = trains.map(inStars);
  const frames = stars.reduce((all, one) => all + (one?.are === 'seen' ? one.frames : 0), 0);
  const shown =
    frames > 0
      ? `, as ${counted(frames, 'frame')} with trailed, doubled or swollen stars may show`
      : stars.every((one) => one?.are === 'unseen')
        ? `, which the stars of ${isOne ? 'its' : 'their'} frames do not show`
        : '';
  return (
    `${listed(trains)} ${isOne ? 'follows' : 'follow'} none of the dithers by ${against}, as happens where programs ` +
    `dither independently, or where trains belong to another session. These dithers therefore do not check ` +
    `${isOne ? 'its clock' : 'their clocks'}, and times are left as written. On a mount of ` +
    `${isOne ? 'its' : 'their'} own nothing needs doing: clockOffset: 0 under ${isOne ? 'it' : 'each'} in the ` +
    `rig file ends this note. On a shared mount each dither falls into open shutters${shown}: then let one program ` +
    'dither for all, when all are ready.'
  );
}

/**
 * Number of frames that are doubtful only because of clocks: the harm is no deeper in their exposures than the train's
 * clock may be off the mount's.
 */
export function leewayNotices(lights: readonly JudgedFrame[]): string[] {
  const byTrain = groupBy(
    lights.filter(({ causes }) => causes.length > 0 && causes.every(restsOnClock)),
    ({ train }) => train,
  );
  return [...byTrain].map(
    ([train, own]) =>
      `${counted(own.length, 'frame')} of ${train} ${own.length === 1 ? 'is' : 'are'} doubtful only because of the ` +
      'clocks: an offset that cannot be excluded would put the disturbance outside their exposures.',
  );
}

/** Below this the sky shows no effect: in a minute of time a field rises by a quarter of a degree at most. */
const OF_THE_SKY_MS = 60_000;
/**
 * Typical duration of a dither with its settling (common practice, no source): a larger offset moves it to another
 * exposure.
 */
const OF_A_DITHER_MS = 20_000;

/** What depends on which of the clocks is right, now that they agree. */
function brought(clocks: readonly ClockStatement[]): string {
  const mostMs = Math.max(...clocks.map(({ aheadMs }) => Math.abs(aheadMs)));
  const most = clockDifference(mostMs);
  return mostMs < OF_THE_SKY_MS
    ? `times of day on this page may be off by up to ${most}, too little to matter for twilight and altitudes. ` +
        'Dither waits and verdicts use the aligned clocks, and are the same either way'
    : `all times on this page, and what follows from them (twilight, altitudes), may be off by up to ${most}`;
}

/** What depends on an unknown offset, with its possible effect if known. */
function atStake({ aheadMs, second, by }: ClockNote): string {
  const mostMs = second && by !== NO_WITNESS ? Math.max(Math.abs(aheadMs), Math.abs(second.aheadMs)) : Infinity;
  if (mostMs >= OF_A_DITHER_MS) return 'what happened during whose exposure is uncertain';
  return (
    `they may be off by ${clockDifference(mostMs)}, and so may its dither waits; a dither may or may not have ` +
    'touched the very edge of a frame; everything else holds'
  );
}

/** What to write where one offset fits best; seconds. */
function proposal({ train, aheadMs, second, by }: ClockNote): string {
  if (!second || by === NO_WITNESS || aheadMs === 0) return '';
  return ` (${(aheadMs / 1000).toFixed(1)} under ${train} takes the first)`;
}

/** Clocks that were set in the night; if a log proves its own setting, those compared with it are redundant. */
function jumped(statements: readonly ClockStatement[]): (readonly [ClockStatement, ClockJump])[] {
  const all = statements.flatMap((c) => (c.jump ? [[c, c.jump] as const] : []));
  const own = all.filter(([, jump]) => jump.isOwn);
  return own.length > 0 ? own : all;
}

/** A clock that was set and corrected: what was done, and by which evidence. */
function stepText(
  { subject: words }: ClockStatement,
  { atMs, byMs, by }: NonNullable<ClockNote['step']>,
  clock: Clock,
): string {
  const size = clockDifference(byMs);
  const whose = `${words.charAt(0).toLowerCase()}${words.slice(1)}`.replace(/ (?:is|are)$/, '');
  return (
    `The clock of ${whose} was set ${byMs < 0 ? 'back' : 'forward'} by ${size} about ${clock.time(atMs)}. What it ` +
    `wrote after that was shifted by ${size} to agree with what it wrote before (by ${by}); verdicts and ` +
    'waits rely on that. A computer that runs on UTC, or is synchronised before dusk, avoids this.'
  );
}

function jumpText({ train, source, against }: ClockStatement, { atMs, byMs, isOwn }: ClockJump, clock: Clock): string {
  const size = `${byMs < 0 ? 'back' : 'forward'} by about ${clockDifference(byMs)}`;
  const whose = isOwn
    ? `that of the ${source} of ${train} was set ${size}`
    : `that of the ${source} of ${train} was set ${size}, or that of ${against} the other way,`;
  // Gaps alone cannot distinguish a clock that was set from programs that run independently.
  const unless = !isOwn && against.startsWith('the headers') ? ', unless the two programs dither independently' : '';
  return (
    `The clock is not known for the whole night: ${whose} about ${clock.time(atMs)}${unless}. Times are left as ` +
    'written, and what happened during whose exposure is uncertain; synchronising before dusk, not during the night, ' +
    'avoids this.'
  );
}

function difference(statement: ClockStatement): string {
  const { aheadMs, against } = statement;
  const side = `${clockDifference(aheadMs)} ${aheadMs < 0 ? 'behind' : 'ahead of'}`;
  return `${subject(statement)} ${side} ${against}${driftWords(statement)}`;
}

/** The subject inside a sentence. */
function subject({ subject: words }: ClockStatement): string {
  return `${words.charAt(0).toLowerCase()}${words.slice(1)}`;
}

function alternatives({ aheadMs, second, by }: ClockNote): string {
  if (by === NO_WITNESS) return ', because the two recorded no event in common';
  if (!second) return `, because no offset fits the events of both well enough (by ${by})`;
  return `: ${side(aheadMs)} fits best, ${side(second.aheadMs)} is not excluded`;
}

function side(aheadMs: number): string {
  return aheadMs === 0 ? 'no difference' : `${clockDifference(aheadMs)} ${aheadMs < 0 ? 'behind' : 'ahead'}`;
}
