import type { DraftedEvent } from './drafted-night.js';

/** An exposure as a draft has it. */
export interface DraftedExposure {
  readonly train: string | undefined;
  readonly startMs: number;
  readonly endMs: number;
  /** What its line states, s; NaN where it states nothing. */
  readonly seconds: number;
  readonly rule: number;
  /** It is said to have been cut short, or to have come to nothing. */
  readonly isGivenUp: boolean;
}

/** An exposure whose end is not found is over by then, in parts of its stated length. */
const LATE = 1.5;

/**
 * Pairs the beginnings of exposures with their ends, each train's for itself; what is not ended before the next begins
 * is over by the length that its line states, and left out where it states none.
 */
export function exposuresIn(drafted: readonly DraftedEvent[]): readonly DraftedExposure[] {
  const found: DraftedExposure[] = [];
  const open = new Map<string | undefined, DraftedEvent>();
  const close = (begun: DraftedEvent, endMs: number, late: number, over?: DraftedEvent): void => {
    const { atMs, train } = begun.event;
    const seconds = secondsOf(begun);
    const untilMs = Number.isNaN(seconds) ? endMs : Math.min(endMs, atMs + late * seconds * 1000);
    if (Number.isFinite(untilMs))
      found.push({ train, startMs: atMs, endMs: untilMs, seconds, rule: begun.rule, isGivenUp: isGivenUp(over) });
  };
  for (const one of drafted) {
    const { event, train, atMs } = one.event;
    if (event !== 'exposure-begin' && event !== 'exposure-end' && event !== 'exposure-abort') continue;
    const begun = open.get(train);
    if (begun !== undefined && event !== 'exposure-begin') close(begun, atMs, LATE, one);
    else if (begun !== undefined && !Number.isNaN(secondsOf(begun))) close(begun, atMs, 1);
    if (event === 'exposure-begin') open.set(train, one);
    else open.delete(train);
  }
  for (const begun of open.values()) close(begun, Infinity, 1);
  return found;
}

/** The length that the line of a beginning states, s; NaN where it states none. */
export function secondsOf({ event }: DraftedEvent): number {
  return (event.event === 'exposure-begin' ? event.seconds : undefined) ?? NaN;
}

function isGivenUp(over: DraftedEvent | undefined): boolean {
  if (over === undefined) return false;
  return over.event.event === 'exposure-abort' || (over.event.event === 'exposure-end' && over.event.ok === false);
}
