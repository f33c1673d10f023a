import {
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

/**
 * What the first screen must say of clocks: those whose offset is not known, since verdicts rest on it, and those
 * brought together without anything to say which is right, since every time on the page rests on that.
 */
export function clockNotices(clocks: readonly ClockNote[], clock: Clock): string[] {
  const statements = clockStatements(clocks);
  const unknown = statements.filter((c) => !c.isKnown);
  const oneSided = statements.filter((c) => c.corrected && !c.isAbsolute);
  return [
    ...jumped(statements).map(([c, jump]) => jumpText(c, jump, clock)),
    ...unknown
      .filter((c) => !c.jump)
      .map(
        (c) =>
          `The clock is not known: how far ${subject(c)} ahead of ${c.against} cannot be found${alternatives(c)}. ` +
          'Its times stand as written, and what fell on whose open shutter is uncertain; clockOffset: in the rig ' +
          'file settles it.',
      ),
    ...(oneSided.length === 0
      ? []
      : [
          `The clocks of the computers differ: ${listed(oneSided.map(difference))}. They were brought together, but ` +
            'which one is right is not known: all times on this page, and what follows from them (twilight, ' +
            'altitudes), may be off by that.',
        ]),
  ];
}

/**
 * How many frames are doubtful for clocks alone: what harmed them lies no deeper in their exposures than the train's
 * clock may be off the mount's.
 */
export function leewayNotices(lights: readonly JudgedFrame[]): string[] {
  const byTrain = groupBy(
    lights.filter(({ causes }) => causes.length > 0 && causes.every(restsOnClock)),
    ({ train }) => train,
  );
  return [...byTrain].map(
    ([train, own]) =>
      `${counted(own.length, 'frame')} of ${train} ${own.length === 1 ? 'is' : 'are'} doubtful for clocks alone: an ` +
      'offset that nothing excludes would put what harmed them outside their exposures.',
  );
}

/** Clocks that were set in the night; where a log proves its own, those compared with it tell the same again. */
function jumped(statements: readonly ClockStatement[]): (readonly [ClockStatement, ClockJump])[] {
  const all = statements.flatMap((c) => (c.jump ? [[c, c.jump] as const] : []));
  const own = all.filter(([, jump]) => jump.isOwn);
  return own.length > 0 ? own : all;
}

function jumpText({ train, source, against }: ClockStatement, { atMs, byMs, isOwn }: ClockJump, clock: Clock): string {
  const size = `${byMs < 0 ? 'back' : 'forward'} by about ${clockDifference(byMs)}`;
  const whose = isOwn
    ? `that of the ${source} of ${train} was set ${size}`
    : `that of the ${source} of ${train} was set ${size}, or that of ${against} the other way,`;
  return (
    `The clock is not known all night: ${whose} about ${clock.time(atMs)}. Times stand as written, and what fell on ` +
    'whose open shutter is uncertain; a time server asked before dusk, not in the night, avoids it.'
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
  if (by === NO_WITNESS) return ', for nothing was written that both saw';
  if (!second) return `, for no offset fits what both did so well that it can be counted on (by ${by})`;
  return `: ${side(aheadMs)} fits best, ${side(second.aheadMs)} is not excluded`;
}

function side(aheadMs: number): string {
  return aheadMs === 0 ? 'no difference' : `${clockDifference(aheadMs)} ${aheadMs < 0 ? 'behind' : 'ahead'}`;
}
