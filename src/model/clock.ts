import type { TellingEvent } from './event.js';
import type { HeaderFrame } from './frame.js';
import type { LineTimes } from './line-times.js';

/** The writer of a time: the program that writes a train's headers, or the one that writes its log. */
export type ClockSource = 'headers' | 'log';

/** One clock of the night relative to the clock that its times are converted to. */
export interface ClockNote {
  readonly train: string;
  readonly source: ClockSource;
  /** What it was compared with: `the log of heron`, `its own log`. */
  readonly against: string;
  /** How far this clock is ahead; negative: behind. */
  readonly aheadMs: number;
  readonly uncertaintyMs: number;
  /** Whether its times were corrected by that. */
  readonly corrected: boolean;
  /** The evidence in words: `18 pauses of the mount`, `the rig file`. */
  readonly by: string;
  /** False if another offset is not excluded, or nothing could be compared: its times are then left as written. */
  readonly isKnown: boolean;
  /**
   * Whether it is known which of two differing clocks is right: a majority of the trains' clocks agrees, or the rig
   * file or a receiver says so. Otherwise times are the reference's, which may itself be wrong.
   */
  readonly isAbsolute: boolean;
  /** The next best offset, and the probability of all others together, if not negligible. */
  readonly second?: { readonly aheadMs: number; readonly share: number };
  /** The clock, or the one it was compared with, was set during the night: no single offset holds. */
  readonly jump?: ClockJump;
  /** It was set in the night by so much, which was taken out: its times are as if it had not been set. */
  readonly step?: Omit<ClockJump, 'isOwn'> & { readonly by: string };
  /** It runs fast or slow relative to the other: `aheadMs` is the offset in the middle. */
  readonly drift?: ClockDrift;
}

/** A clock that runs fast or slow. */
export interface ClockDrift {
  /** How much further it gets ahead every hour, ms; negative: behind. */
  readonly perHourMs: number;
  /** When the stated offset applies, UTC ms. */
  readonly aboutMs: number;
}

/** A clock set in the middle of the night. */
export interface ClockJump {
  /** About when, UTC ms in the times as written. */
  readonly atMs: number;
  /** How far it was set forward; negative: back. */
  readonly byMs: number;
  /** Whether its own log proves it; otherwise the clock that it was compared with may be the one that was set. */
  readonly isOwn: boolean;
}

/** Marks a clock that nothing could be compared with. */
export const NO_WITNESS = 'no event that both recorded';
/** Marks a clock whose train follows none of the dithers, like one of another session or program. */
export const KEEPS_TO_NONE = 'dithers, none of which it follows';

/** The night's clocks, and the corrections for their times. */
export interface NightClocks {
  readonly notes: readonly ClockNote[];
  /** ms to subtract from a time written by that clock; 0 without correction. */
  readonly shiftMs: (train: string, source: ClockSource, atMs: number) => number;
  /** Steps of clocks that were set in the night; taken out before anything is shifted. */
  readonly steps: ClockSteps;
}

/** No clock was set in the night. */
export const NO_STEPS: ClockSteps = { writtenMs: () => 0, lines: (_train, own) => own, ofComputer: () => null };

/** Steps of clocks that were set in the night, by what was written after them. */
export interface ClockSteps {
  /** What they add to the time of an event or header as written, ms. */
  readonly writtenMs: (train: string, written: TellingEvent | HeaderFrame) => number;
  /** The instants of a log's lines without them. */
  readonly lines: (train: string, own: LineTimes) => LineTimes;
  /** The step of a whole computer, with everything that it wrote. */
  readonly ofComputer: (train: string) => { readonly atMs: number; readonly byMs: number } | null;
}

/**
 * Multiple of the standard uncertainty of an offset that may be chance: clocks within it of agreement count as
 * agreeing, and verdicts allow for as much, so that uncorrected offsets lose no frame. The interval holds 95 % of a
 * normal distribution, and all of a uniform one (JCGM 100:2008, 6.2 and 4.3.7).
 */
export const CLOCK_COVERAGE = 2;

/**
 * Clocks that differ by more than this are reported, ms. Below it, capture programs' own delays explain the difference.
 */
export const CLOCK_TOLERANCE_MS = 2000;

/** Whether a known clock differs from the other: by more than programs' delays plus its uncertainty; or drifts. */
export function isClockApart(
  { isKnown, aheadMs, uncertaintyMs, drift }: ClockNote,
  toleranceMs = CLOCK_TOLERANCE_MS,
): boolean {
  const limitMs = Math.max(toleranceMs, CLOCK_COVERAGE * uncertaintyMs);
  return isKnown && (drift !== undefined || Math.abs(aheadMs) > limitMs);
}

/** Suffix for the offset of a drifting clock: when it applies, and its rate. */
export function driftWords({ aheadMs, drift }: ClockNote): string {
  if (!drift) return '';
  const seconds = (Math.abs(drift.perHourMs) / 1000).toFixed(2);
  const isGrowing = aheadMs < 0 ? drift.perHourMs < 0 : drift.perHourMs > 0;
  return ` in the middle of the night, ${seconds} s ${isGrowing ? 'more' : 'less'} per hour`;
}

/** What keeps clocks synchronised all night. */
export const STEERING_ADVICE =
  'let a time service keep all computers in step all night: synchronising once before dusk leaves a drift';

/** A clock note as reported: of the headers, of the log, or of the computer that wrote both. */
export interface ClockStatement extends ClockNote {
  /** `The headers of wren are`, `The log of wren is`, `The computer of wren is`. */
  readonly subject: string;
}

/** Headers and log of one train with offsets this similar, ms, share one computer's clock. */
const ALIKE_MS = 1000;

/** Notes to report, with headers and log of one computer merged if their offsets are equal. */
export function clockStatements(clocks: readonly ClockNote[]): ClockStatement[] {
  return clocks.flatMap((note): ClockStatement[] => {
    const twin = clocks.find(
      (c) =>
        c.train === note.train &&
        c.source !== note.source &&
        c.isKnown === note.isKnown &&
        c.corrected === note.corrected &&
        (c.step === undefined) === (note.step === undefined) &&
        Math.abs(c.aheadMs - note.aheadMs) <= ALIKE_MS,
    );
    if (twin && note.source === 'headers') return [];
    const subject = twin
      ? `The computer of ${note.train} is`
      : note.source === 'headers'
        ? `The headers of ${note.train} are`
        : `The log of ${note.train} is`;
    return [{ ...note, subject }];
  });
}

/** Maximum delay of programs after a dither (common practice, no source), ms. */
export const LATE_START_MS = 30_000;

/**
 * Whether it is undecided if a clock differs by some seconds or a program begins later than the other by as much: the
 * evidence fits both.
 */
export function isLateOrAhead({ isKnown, aheadMs, second, jump }: ClockNote): boolean {
  return !isKnown && !jump && second?.aheadMs === 0 && aheadMs !== 0 && Math.abs(aheadMs) <= LATE_START_MS;
}
