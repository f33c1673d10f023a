/** What is known about the night's clocks, as stated in the record and on the page. */
import { CLOCK_COVERAGE, type ClockJump, type ClockNote, type ClockSource } from '../../model/index.js';
import type { HourStep } from './hour-step.js';
import type { TrainStreams } from './streams.js';
import type { ComparedClock, RightTime } from './vote.js';

/** A clock and what is known about it. */
export interface Compared extends ComparedClock {
  readonly against: string;
  readonly by: string;
  readonly isKnown: boolean;
  readonly second?: ClockNote['second'];
  readonly jump?: ClockNote['jump'];
  readonly drift?: ClockNote['drift'];
  /** Known relative to its train's log only, whose own offset is unknown. */
  readonly isOfLogAlone?: boolean;
}

/** Smaller differences are the time programs take to write a line, ms. */
const LEAST_CORRECTION_MS = 1000;

/** What is known about a clock, relative to the time accepted as right. */
export function toNote(clock: Compared, right: RightTime): ClockNote {
  const aheadMs = clock.isOfLogAlone ? clock.aheadMs : clock.aheadMs - right.aheadMs;
  return {
    train: clock.train,
    source: clock.source,
    against: clock.against,
    aheadMs,
    uncertaintyMs: clock.uncertaintyMs,
    corrected: clock.isKnown && (clock.drift !== undefined || isApart(aheadMs, clock.uncertaintyMs)),
    by: clock.by,
    isKnown: clock.isKnown,
    isAbsolute: right.isAbsolute,
    ...(clock.second ? { second: clock.second } : {}),
    ...(clock.jump ? { jump: clock.jump } : {}),
    ...(clock.drift ? { drift: clock.drift } : {}),
  };
}

function isApart(aheadMs: number, uncertaintyMs: number): boolean {
  return Math.abs(aheadMs) >= LEAST_CORRECTION_MS && Math.abs(aheadMs) > CLOCK_COVERAGE * uncertaintyMs;
}

/** The reference itself, if the other trains' clocks outvote it, or the sky refutes it. */
export function referenceNote(origin: ComparedClock, right: RightTime, compared: readonly Compared[]): ClockNote[] {
  const { aheadMs: rightMs } = right;
  if (rightMs === 0) return [];
  const agreeing = compared.filter((c) => c.isKnown && Math.abs(c.aheadMs - rightMs) <= LEAST_CORRECTION_MS);
  const names = agreeing.map((c) => `the ${c.source} of ${c.train}`).join(', ');
  return [
    {
      train: origin.train,
      source: origin.source,
      against: names,
      aheadMs: -rightMs,
      uncertaintyMs: agreeing.reduce((most, c) => Math.max(most, c.uncertaintyMs), 0),
      corrected: isApart(rightMs, 0),
      by: right.by ?? `${agreeing.length} clocks that agree`,
      isKnown: true,
      isAbsolute: right.isAbsolute,
    },
  ];
}

/** The reference, if its own log proves that its clock was set in the night. */
export function jumpNote(train: string, jump: ClockJump | null): ClockNote[] {
  if (!jump) return [];
  return [
    {
      train,
      source: 'log',
      against: 'itself',
      aheadMs: 0,
      uncertaintyMs: Math.abs(jump.byMs),
      corrected: false,
      by: 'its own lines',
      isKnown: false,
      isAbsolute: false,
      jump,
    },
  ];
}

/** Clocks determined by the rig file. */
export function byHand(byHandMs: ReadonlyMap<string, number>, streams: readonly TrainStreams[]): ClockNote[] {
  return streams.flatMap(({ train, log, headers }): ClockNote[] => {
    const aheadMs = byHandMs.get(train);
    if (aheadMs === undefined) return [];
    const sources: ClockSource[] = [
      ...(headers.length > 0 ? (['headers'] as const) : []),
      ...(log.length > 0 ? (['log'] as const) : []),
    ];
    return sources.map((source) => ({
      train,
      source,
      against: 'the rig file',
      aheadMs,
      uncertaintyMs: 0,
      corrected: aheadMs !== 0,
      by: 'the rig file',
      isKnown: true,
      isAbsolute: true,
    }));
  });
}

/** Notes on clocks that were set by an hour and corrected for it; one that had no note gets one. */
export function withSteps(notes: readonly ClockNote[], steps: readonly HourStep[]): ClockNote[] {
  const of = (train: string, source: ClockSource): HourStep | undefined =>
    steps.find((step) => step.train === train && step.sources.includes(source));
  const noted = notes.map((note): ClockNote => {
    const step = of(note.train, note.source);
    return step === undefined
      ? note
      : { ...note, corrected: true, step: { atMs: step.atMs, byMs: step.byMs, by: step.by } };
  });
  const missing = steps.flatMap(({ train, sources, atMs, byMs, by }) =>
    notes.some((note) => note.train === train && sources.includes(note.source))
      ? []
      : sources.slice(-1).map(
          (source): ClockNote => ({
            train,
            source,
            against: 'itself',
            aheadMs: 0,
            uncertaintyMs: 0,
            corrected: true,
            by,
            isKnown: true,
            isAbsolute: true,
            step: { atMs, byMs, by },
          }),
        ),
  );
  return [...missing, ...noted];
}
