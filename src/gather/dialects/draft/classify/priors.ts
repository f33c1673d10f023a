import { beginOf, endOf, type EventName } from '../../../../model/index.js';
import { statesTook } from '../group-names.js';
import type { Kind } from '../kinds/kind.js';
import { permits, saysFailed } from '../lexicon/said.js';
import type { Stated } from './durations.js';
import { STATES } from './grammar.js';
import { measuresPlace } from './own-evidence.js';
import { comesTooOften } from './usual-counts.js';

/** What the one mount and the one guider do for both trains. */
const OF_BOTH = /^(?:slew|centre|flip|dither-(?:begin|end)|settling|guiding|hold)/;
/** What happens once a target, a filter or a trouble, not after every few frames. */
const SELDOM = /^(?:exposure-abort|focus|slew|centre|flip|guiding|hold|filter)/;
/** From this share of the frames on, a thing is no longer seldom. */
const OFTEN = 0.28;
const MIN_EXPOSURES = 12;
/** From this share of the frames on, what cuts them short is no accident. */
const ABORTED = 0.15;
const TOO_OFTEN = -0.9;
const MANY_HOLDS = 8;
const MANY_FLIPS = -3;
const DEGREES = /^(?:°\s?c?|c|℃|celsius|grad\w*|stopn\w*|stupn\w*|degr\w*|graden|度)$/i;
/** A wheel that turns names the filter, mostly. */
const NO_FILTER = -0.7;
const MIN_NAMED = 4;
const NO_POSITION = -0.2;
/** What names an object is about the way there. */
const NO_OBJECT = -0.8;
/** What says how long it took is over. */
const OVER = 0.5;
/** To be ready has no size. */
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

/**
 * What speaks against an event whether words name it or not: it comes more often than such a thing does, or has a
 * size.
 */
export function againstValues(kind: Kind, event: EventName, exposures: number): number {
  const numbers = kind.slots.some(({ type }) => type === 'number');
  if (event === 'dither-ready') return numbers ? READY_WITH_NUMBER : 0;
  // Hardly a night is held up that often; trains wait for each other all the time.
  if (event.startsWith('hold') && kind.count >= MANY_HOLDS) return TOO_OFTEN;
  // A mount changes its side once or twice.
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

/** Whether the lines of a kind name, one after the other, mostly the filter that the last has named. */
function staysInPlace({ slots }: Kind): boolean {
  const named = slots.find(({ type }) => type === 'filter')?.perLine ?? [];
  const same = named.filter((value, i) => i > 0 && value === named[i - 1]).length;
  return named.length >= MIN_NAMED && same > 0.5 * (named.length - 1);
}

/**
 * What each event is worth on a kind whose words do not name it: less where its values are not those of the event, or
 * where it comes more often than such a thing does.
 *
 * @param exposures how many exposures the log tells
 * @param loggedAtEnd exposures are told when they are over
 * @param isTwin another kind says the same of the other train: it is nothing that both share, and no accident
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
  const isWarm = kind.slots.some(({ type, after }) => type === 'number' && DEGREES.test(after));
  const isOver = duration === 'past' || (duration === undefined && statesTook(kind));
  const isFailed = !isMeasured && saysFailed(kind.wording.slice(kind.lead));
  const isLeave = permits(kind.wording.slice(kind.lead));
  for (const state of STATES) {
    if (comesTooOften(state, kind.count) || (isTwin && OF_BOTH.test(state))) continue;
    // Exposures are told by their seconds or by words: else whatever comes again and again would be one.
    if (state === 'exposure-begin' || state === 'exposure-end') continue;
    // How far off the place is says nothing of wheels, shutters and clouds.
    if (isMeasured && !/^(?:centre-end|settling|dither)/.test(state)) continue;
    // What was cut short was not saved, and it comes seldom.
    if (state === 'exposure-abort' && (loggedAtEnd || has('file') || kind.count > ABORTED * exposures)) continue;
    // Degrees are those of the air, of a chip or of a tube that is focused.
    if (isWarm && state !== 'focus-end') continue;
    // What has failed begins nothing.
    if (isFailed && endOf(state) !== undefined) continue;
    // What only gives leave to go on does nothing.
    if (isLeave && state !== 'dither-ready' && state !== 'hold-end') continue;
    // Each train says for itself that it waits.
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
