/** Problems with the dates and lengths of exposures in headers. */
import { EARLIEST_YEAR, LATEST_YEAR } from '../../vocabulary/bounds.js';
import type { DateTime } from './dates.js';
import { type HeaderNote, show } from './notes.js';

const SET_CLOCK = 'Set the clock of the camera computer, preferably from network time.';
const CHECK_PROGRAM = 'Check what the capture program writes there.';

export const MISSING_DATE: HeaderNote = {
  code: 'missing-date',
  card: 'DATE-OBS',
  what: 'the header holds no usable date, so the frame has no place in the night',
  remedy: 'Have the capture program write DATE-OBS, or name the keyword it uses in the rig file.',
};

export const MISSING_EXPOSURE_TIME: HeaderNote = {
  code: 'missing-exposure-time',
  card: 'EXPTIME',
  what: 'the header holds no usable exposure time, so only the start is known',
  remedy: 'Have the capture program write EXPTIME, or name the keyword it uses in the rig file.',
};

export function unreadableDate(card: string, text: string): HeaderNote {
  return {
    code: 'unreadable-date',
    card,
    what:
      `${card} is ${show(text)}, which is not a date in the years ${EARLIEST_YEAR} to ${LATEST_YEAR}; it was ` +
      `left out`,
    remedy: CHECK_PROGRAM,
  };
}

export function dateWithoutTime(card: string): HeaderNote {
  return {
    code: 'date-without-time',
    card,
    what: `${card} has no time of day, and no card gives one; it was left out`,
    remedy: 'Have the capture program write the time too, as YYYY-MM-DDThh:mm:ss.',
  };
}

export function oddDate(card: string, text: string, oddity: NonNullable<DateTime['oddity']>, ms: number): HeaderNote {
  const read = new Date(ms).toISOString();
  return oddity === 'two-digit-year'
    ? {
        code: oddity,
        card,
        what: `${card} is ${show(text)}, a form for the years 1900 to 1999 only; it was read as ${read.slice(0, 10)}`,
        remedy: 'Have the capture program write YYYY-MM-DDThh:mm:ss.',
      }
    : {
        code: oddity,
        card,
        what: `${card} is ${show(text)} with a time zone, which FITS does not allow; it was read as ${read}`,
        remedy: 'Have the capture program write UTC without a zone.',
      };
}

export function derivedLength(start: string, end: string): HeaderNote {
  return {
    code: 'derived-length',
    card: 'EXPTIME',
    what: `no card states a usable exposure time; it was taken to be the time between ${start} and ${end}`,
    remedy: 'Have the capture program write EXPTIME.',
  };
}

/** @param remark the comment by which the card dates another moment than its name implies */
export function derivedStart(card: string, share: 0.5 | 1, remark: string | undefined): HeaderNote {
  const moment = share === 1 ? 'end' : 'middle';
  if (remark !== undefined) {
    return {
      code: 'derived-start',
      card,
      what:
        `${card} is that of the exposure's ${moment}, as its comment ${show(remark)} says; the start was computed ` +
        `from it less ${share === 1 ? 'the' : 'half the'} exposure time`,
      remedy: 'Have the capture program write the start, as the standard has it.',
    };
  }
  return {
    code: 'derived-start',
    card,
    what:
      `no card dates the start of the exposure; it was computed from ${card} less ` +
      `${share === 1 ? 'the' : 'half the'} exposure time`,
    remedy: 'Have the capture program write DATE-OBS.',
  };
}

export function unknownTimeScale(card: string, scale: string): HeaderNote {
  return {
    code: 'unknown-time-scale',
    card,
    what: `${card} is ${show(scale)}, a time scale that cannot be brought to UTC; the dates were taken as UTC`,
    remedy: 'Have the capture program write UTC.',
  };
}

export function dateInFuture(keyword: string, ms: number): HeaderNote {
  return {
    code: 'date-in-future',
    card: keyword,
    what: `${keyword} gives ${new Date(ms).toISOString()}, which is still to come`,
    remedy: SET_CLOCK,
  };
}
