import type { DraftedEvent } from './drafted-night.js';

/** An exposure according to a draft. */
export interface DraftedExposure {
  readonly train: string | undefined;
  readonly startMs: number;
  readonly endMs: number;
  /** The length its line states, s; NaN if none. */
  readonly seconds: number;
  readonly rule: number;
  /** Reported as cut short or failed. */
  readonly isGivenUp: boolean;
}

/** Upper limit for an exposure without an end, as a multiple of its stated length. */
const LATE = 1.5;

/**
 * Pairs exposure begins with ends, per train; an exposure without an end before the next begin lasts as long as its
 * line states, and is dropped where its line states no length.
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

/** The length stated by the line of a begin, s; NaN if none. */
export function secondsOf({ event }: DraftedEvent): number {
  return (event.event === 'exposure-begin' ? event.seconds : undefined) ?? NaN;
}

function isGivenUp(over: DraftedEvent | undefined): boolean {
  if (over === undefined) return false;
  return over.event.event === 'exposure-abort' || (over.event.event === 'exposure-end' && over.event.ok === false);
}
