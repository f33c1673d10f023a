import { counted, countOf, increment, otherSideOf, type EventName, type LogEvent } from '../../../../model/index.js';
import { pairEvents, type Contradiction } from '../../check/contradictions.js';
import { unusedOf } from '../choice.js';
import type { DraftReport } from '../report.js';
import { exposuresIn, secondsOf } from './drafted-exposures.js';
import type { DraftedEvent, DraftedNight } from './drafted-night.js';
import { ofTwoTrains } from './of-two-trains.js';

/**
 * Fractions of contradicting events, and of exposures that end early, from which a draft is probably wrong as a whole,
 * and the fewest of them: set on the open formats.
 */
const CONTRADICTING = 0.1;
const MIN_CONTRADICTING = 12;
const CUT_SHORT = 0.2;
const MIN_CUT_SHORT = 8;
/** Number of exposures of which no end and no length is read: a log with as many states one of the two. */
const MIN_ENDLESS = 20;
const FEW_ENDS = 0.05;
/** An exposure that ends before this fraction of its stated length. */
const HALF = 0.5;
/** Events of one side only contradict nothing: some programs log no other. */
const BOTH_SIDES = 0.2;
/** Fraction of a rule's events that contradict others, from which it explains less than it contradicts. */
const MOSTLY = 0.5;
const MIN_OF_RULE = 3;

/**
 * Judges a draft by the night that it tells, whatever each of its rules has for itself.
 *
 * @returns what shows that it is probably wrong as a whole, clauses in the present tense; empty if nothing does
 */
export function verdictOn({ drafted }: DraftedNight): readonly string[] {
  const events = drafted.map(({ event }) => event);
  const found = contradictionsOf(drafted);
  const kinds = new Map<string, number>();
  for (const { kind } of found) increment(kinds, kind);
  const [most] = [...kinds].sort((a, b) => b[1] - a[1]);
  const isOdd = found.length >= MIN_CONTRADICTING && found.length >= CONTRADICTING * events.length;
  const exposures = exposuresIn(ofTwoTrains(drafted)).filter(({ isGivenUp }) => !isGivenUp);
  const early = exposures.filter(({ startMs, endMs, seconds }) => endMs - startMs < HALF * seconds * 1000).length;
  const isEarly = early >= MIN_CUT_SHORT && early >= CUT_SHORT * exposures.length;
  const begun = events.filter(({ event }) => event === 'exposure-begin').length;
  const ended = events.filter(({ event }) => ENDS.test(event)).length;
  const isEndless = begun >= MIN_ENDLESS && ended <= FEW_ENDS * begun && statesNoLength(drafted);
  const share = `${found.length} of its ${counted(events.length, 'event')}`;
  return [
    ...(isOdd && most !== undefined ? [`${share} contradict others, most as ${SAID[most[0]] ?? most[0]}`] : []),
    ...(isEndless ? [`${begun - ended} of its ${begun} exposures have neither an end nor a length`] : []),
    ...(isShotless(events) ? ['it mentions filters, refocusing or dithers, but no exposure'] : []),
    ...(isEarly ? [`${early} of ${exposures.length} exposures end before half of their stated length`] : []),
  ];
}

const ENDS = /^exposure-(?:end|abort)$/;

/** What is done for exposures, and the fewest events of a sort for it to be more than a mistake. */
const FOR_EXPOSURES = [/^filter-/, /^focus-/, /^dither-/] as const;
const MIN_FOR_EXPOSURES = 5;

/** Whether a night has at least two sorts of what is done for exposures, but none of these: a guiding log has one. */
function isShotless(events: readonly LogEvent[]): boolean {
  if (events.some(({ event }) => /^exposure-(?:begin|end)$|^frame-saved$/.test(event))) return false;
  const sorts = FOR_EXPOSURES.filter(
    (sort) => events.filter(({ event }) => sort.test(event)).length >= MIN_FOR_EXPOSURES,
  );
  return sorts.length > 1;
}

function statesNoLength(drafted: readonly DraftedEvent[]): boolean {
  return drafted.every((one) => Number.isNaN(secondsOf(one)));
}

const SAID: Readonly<Partial<Record<string, string>>> = {
  'end-without-begin': 'ends of what has not begun',
  'begin-twice': 'beginnings of what is already in progress',
  'never-ends': 'beginnings that never end',
  'exposures-overlap': 'exposures of one train that overlap',
};

/** The draft without the rules most of whose events contradict others: their lines are left for the user. */
export function withoutContradicting(report: DraftReport, night: DraftedNight): DraftReport {
  const at = new Set(contradictionsOf(night.drafted).map(({ source, event }) => `${source.line ?? 0} ${event}`));
  const isOdd = ({ event }: DraftedEvent): boolean => at.has(`${event.source.line ?? 0} ${event.event}`);
  const doubted = report.rules.filter((_, i) => {
    const own = night.drafted.filter(({ rule }) => rule === i);
    const odd = own.filter(isOdd).length;
    return odd >= MIN_OF_RULE && odd > MOSTLY * own.length;
  });
  if (doubted.length === 0) return report;
  const taken = doubted.map(({ kind, events, choice }) => ({
    ...unusedOf(
      kind,
      choice,
      events.map(({ event }) => event),
    ),
    doubt: 'most of its events contradict others',
  }));
  return {
    ...report,
    rules: report.rules.filter((rule) => !doubted.includes(rule)),
    unused: [...taken, ...report.unused],
  };
}

/** The contradictions that are none of a log's habits: an order of its own, or one side that it never logs. */
function contradictionsOf(drafted: readonly DraftedEvent[]): readonly Contradiction[] {
  const events = drafted.map(({ event }) => event);
  const counts = new Map<EventName, number>();
  for (const { event } of events) increment(counts, event);
  return pairEvents(ofTwoTrains(drafted).map(({ event }) => event)).contradictions.filter(({ kind, event: name }) => {
    if (kind === 'time-steps-back') return false;
    const other = otherSideOf(name);
    return other === undefined || countOf(counts, other) >= BOTH_SIDES * countOf(counts, name);
  });
}
