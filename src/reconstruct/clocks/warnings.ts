/** Warnings about clocks that differ, or whose difference is unknown. */
import {
  clockDifference,
  clockStatements,
  driftWords,
  isClockApart,
  isLateOrAhead,
  KEEPS_TO_NONE,
  NO_WITNESS,
  STEERING_ADVICE,
  type ClockJump,
  type ClockNote,
  type ClockStatement,
  type Warning,
} from '../../model/index.js';
import { isZoneLike } from './differences.js';

/** One warning per clock that was corrected, disagrees, or remained undetermined despite some evidence. */
export function clockWarnings(clocks: readonly ClockNote[]): Warning[] {
  return clockStatements(clocks).flatMap((note): Warning[] => {
    const { step } = note;
    if (step !== undefined) return [stepped(note, step)];
    if (note.corrected || isClockApart(note)) return [differs(note)];
    return note.isKnown || note.by === NO_WITNESS ? [] : [unsettled(note)];
  });
}

function differs(note: ClockStatement): Warning {
  const action = note.corrected
    ? `its times were shifted by that${note.drift ? `; ${STEERING_ADVICE}` : ''}`
    : `its times were left as they are; set the computers' clocks by a time server`;
  return {
    code: 'clock-offset',
    message:
      `${note.subject} ${offset(note.aheadMs)} ${note.against}${driftWords(note)} ` +
      `(± ${clockDifference(note.uncertaintyMs)}, by ${note.by}); ${action}${zoneAdvice(note)}`,
  };
}

function stepped(note: ClockStatement, { byMs, by }: NonNullable<ClockNote['step']>): Warning {
  const rest = isClockApart(note)
    ? `; before that it was ${offset(note.aheadMs)} ${note.against}, which was corrected`
    : '';
  return {
    code: 'clock-stepped',
    message:
      `${note.subject.replace(/ (?:is|are)$/, '')}: its clock was set ${byMs < 0 ? 'back' : 'forward'} by ` +
      `${clockDifference(byMs)} during the night (by ${by}); what was written after it was shifted by ` +
      `${clockDifference(byMs)}${rest}. Let the computers run on UTC, or synchronise them before dusk`,
  };
}

function zoneAdvice({ train, source, aheadMs, by }: ClockNote): string {
  if (!isZoneLike(aheadMs) || by === 'the rig file') return '';
  return source === 'headers'
    ? `. That is a time zone's offset: if the headers are in local time, set headerTimeZone: for ` +
        `${train} in the rig file`
    : `. That is a time zone's offset: check the zone of its dialect, or set zone: for ${train} in the rig file`;
}

function unsettled(note: ClockNote): Warning {
  if (note.jump) return jumped(note, note.jump);
  if (note.by === KEEPS_TO_NONE)
    return {
      code: 'clock-unknown',
      message:
        `${note.train} follows none of the dithers by ${note.against}, so they say nothing about its clock. ` +
        `Times were left as written; clockOffset: 0 for ${note.train} in the rig file says that the clocks agree`,
    };
  if (isLateOrAhead(note)) {
    const seconds = (Math.abs(note.aheadMs) / 1000).toFixed(1);
    const later = note.aheadMs > 0 ? note.train : 'the other train';
    return {
      code: 'clock-unknown',
      message:
        `the ${note.source} of ${note.train}: either its clock is ${offset(note.aheadMs)} ${note.against}, or the ` +
        `program of ${later} begins ${seconds} s later after each dither; both fit (${note.by}). Times were left as ` +
        `written; set clockOffset: ${(note.aheadMs / 1000).toFixed(1)} for ${note.train} in the rig file if it is ` +
        'the clock, 0 if the clocks agree',
    };
  }
  const other = note.second;
  const also = other ? `; ${offset(other.aheadMs)} it is just as possible` : '';
  return {
    code: 'clock-unknown',
    message:
      `how far the ${note.source} of ${note.train} ${note.source === 'headers' ? 'are' : 'is'} ahead ` +
      `of ${note.against} cannot be determined: ${offset(note.aheadMs)} it fits best${also}. Times were left ` +
      `as written; set clockOffset: for ${note.train} in the rig file (seconds that its computer is ` +
      'ahead)',
  };
}

function jumped({ train, source, against }: ClockNote, { byMs, isOwn }: ClockJump): Warning {
  const subject = `the ${source} of ${train}`;
  const set = `set ${byMs < 0 ? 'back' : 'forward'} by about ${clockDifference(byMs)} during the night`;
  return {
    code: 'clock-jumped',
    message:
      (isOwn
        ? `the clock of ${subject} was ${set}`
        : `the clock of ${subject}, or that of ${against} the other way, was ${set}`) +
      `${isOwn ? '' : exceptWhere(against)}. ` +
      'Times were left as written; synchronise the computers with one time server before dusk',
  };
}

/** Gaps alone cannot distinguish a clock that was set from programs that run independently. */
function exceptWhere(against: string): string {
  return against.startsWith('the headers') ? ', unless the two programs dither independently' : '';
}

function offset(aheadMs: number): string {
  return `${clockDifference(aheadMs)} ${aheadMs < 0 ? 'behind' : 'ahead of'}`;
}
