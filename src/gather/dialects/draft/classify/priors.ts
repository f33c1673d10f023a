import { beginOf, endOf, type EventName } from '../../../../model/index.js';
import { statesTook } from '../group-names.js';
import type { Kind } from '../kinds/kind.js';
import { permits, saysFailed } from '../lexicon/said.js';
import type { Stated } from './durations.js';
import { STATES } from './grammar.js';
import { measuresPlace } from './own-evidence.js';
import { comesTooOften } from './usual-counts.js';
import { isDegrees } from './degrees.js';

/** Done by the single mount and guider for both trains. */
const OF_BOTH = /^(?:slew|centre|flip|dither-(?:begin|end)|settling|guiding|hold)/;
/** Happens once per target, filter or problem, not after every few frames. */
const SELDOM = /^(?:exposure-abort|focus|slew|centre|flip|guiding|hold|filter)/;
/** From this many per frame on, an event is no longer rare. */
const OFTEN = 0.28;
const MIN_EXPOSURES = 12;
/** From this many per frame on, cutting frames short is no accident. */
const ABORTED = 0.15;
const TOO_OFTEN = -0.9;
const MANY_HOLDS = 8;
const MANY_FLIPS = -3;
/** A turning wheel usually names the filter. */
const NO_FILTER = -0.7;
const MIN_NAMED = 4;
const NO_POSITION = -0.2;
/** A line that names an object is about the slew to it. */
const NO_OBJECT = -0.8;
/** A line with an elapsed duration reports an end. */
const OVER = 0.5;
/** Readiness has no size. */
const READY_WITH_NUMBER = -0.6;
const RARE: ReadonlyMap<EventName, number> = new Map([
  ['dither-ready', -0.7],
  ['exposure-abort', -0.3],
  ['hold-begin', -0.5],
  ['hold-end', -0.5],
  ['flip-begin', -0.4],
  ['flip-end', -0.4],
  ['guiding-rest-begin', -0.2],
  ['guiding-rest-end', -0.2],
]);

/** Evidence against an event, whether or not words name it: it is too frequent, or has a size. */
export function againstValues(kind: Kind, event: EventName, exposures: number): number {
  const numbers = kind.slots.some(({ type }) => type === 'number');
  if (event === 'dither-ready') return numbers ? READY_WITH_NUMBER : 0;
  // Holds are rare in a night; trains wait for each other all the time.
  if (event.startsWith('hold') && kind.count >= MANY_HOLDS) return TOO_OFTEN;
  // A mount flips once or twice a night.
  if (event.startsWith('flip') && kind.count >= MANY_HOLDS) return MANY_FLIPS;
  // A wheel turns from one filter to another.
  if (event.startsWith('filter') && staysInPlace(kind)) return TOO_OFTEN;
  const often = exposures >= MIN_EXPOSURES && kind.count > OFTEN * exposures;
  return often &&
    SELDOM.test(event) &&
    !(event.startsWith('filter') && kind.slots.some(({ type }) => type === 'filter'))
    ? TOO_OFTEN
    : 0;
}

/** Whether consecutive lines of the kind mostly name the same filter. */
function staysInPlace({ slots }: Kind): boolean {
  const named = slots.find(({ type }) => type === 'filter')?.perLine ?? [];
  const same = named.filter((value, i) => i > 0 && value === named[i - 1]).length;
  return named.length >= MIN_NAMED && same > 0.5 * (named.length - 1);
}

/**
 * The prior weight of each event for a kind whose words do not name it: lower if its values do not suit the event, or
 * if it is too frequent.
 *
 * @param exposures number of exposures that the log reports
 * @param loggedAtEnd exposures are logged when they end
 * @param isTwin another kind says the same of the other train: it is neither shared by both nor an accident
 */
export function priorOf(
  kind: Kind,
  exposures: number,
  duration?: Stated,
  isTwin = false,
  loggedAtEnd = false,
): Map<EventName, number> {
  const has = (type: string): boolean => kind.slots.some((slot) => slot.type === type);
  const prior = new Map<EventName, number>();
  const isMeasured = measuresPlace(kind);
  const isWarm = kind.slots.some(({ type, after }) => type === 'number' && isDegrees(after));
  const isOver = duration === 'past' || (duration === undefined && statesTook(kind));
  const isFailed = !isMeasured && saysFailed(kind.wording.slice(kind.lead));
  const isLeave = permits(kind.wording.slice(kind.lead));
  for (const state of STATES) {
    if (comesTooOften(state, kind.count) || (isTwin && OF_BOTH.test(state))) continue;
    // Exposures must be indicated by seconds or words: otherwise anything frequent would be one.
    if (state === 'exposure-begin' || state === 'exposure-end') continue;
    // A pointing offset is unrelated to wheels, shutters and clouds.
    if (isMeasured && !/^(?:centre-end|settling|dither)/.test(state)) continue;
    // An aborted exposure is not saved, and is rare.
    if (state === 'exposure-abort' && (loggedAtEnd || has('file') || kind.count > ABORTED * exposures)) continue;
    // Degrees are those of the air, a sensor, or a tube being focused.
    if (isWarm && state !== 'focus-end') continue;
    // A failure begins nothing.
    if (isFailed && endOf(state) !== undefined) continue;
    // A mere permission to continue does nothing.
    if (isLeave && state !== 'dither-ready' && state !== 'hold-end') continue;
    // Each train reports its own waits.
    const rare = isTwin && state === 'dither-ready' ? 0 : (RARE.get(state) ?? 0);
    let value = rare + againstValues(kind, state, exposures);
    if (state.startsWith('filter') && !has('filter')) value += NO_FILTER;
    if (!/^(?:filter|exposure)/.test(state) && has('filter')) value += NO_FILTER;
    if (state === 'focus-end' && !has('number')) value += NO_POSITION;
    if (has('designation') && !/^(?:slew|centre)/.test(state)) value += NO_OBJECT;
    if (has('file')) value -= 1;
    if (isOver && beginOf(state) !== undefined) value += OVER;
    else if (isOver && endOf(state) !== undefined) value -= OVER;
    prior.set(state, value);
  }
  return prior;
}
