import {
  beginOf,
  EVENT_NAMES,
  groupBy,
  spanBegunBy,
  spanEndedBy,
  type EventName,
  type SpanName,
} from '../../../../model/index.js';
import type { Candidate, Verdict } from '../classify/classify.js';
import { nameKey, wordsIn } from '../classify/twins.js';
import type { Kind } from '../kinds/kind.js';
import { plainWords } from '../lexicon/plain-words.js';
import { namesSubject } from '../lexicon/said.js';
import { isGuider, stateChange } from '../lexicon/state-changes.js';
import { guiderTurns } from './guider-turns.js';
import { halvesOf, type Half } from './halves.js';
import { machineOf, type Machine } from './machine.js';
import { stateChangeEvents, type StateChangeEvents } from './change-events.js';
import { transitionsIn } from './transitions.js';

/** A guider's states themselves say when it guides. */
const OF_GUIDING = /^guiding-(?:begin|end)$/;

/** What begins as a state is entered, and momentary events at that time. */
const ENTERING: readonly EventName[] = EVENT_NAMES.filter(
  (event) =>
    spanBegunBy(event) !== undefined || ['dither-ready', 'frame-saved', 'cooler', 'guiding-end'].includes(event),
);
/** What ends as one is left. */
const LEAVING: readonly EventName[] = EVENT_NAMES.filter((event) => beginOf(event) !== undefined);
/** The only active state of a device is what it is made for. */
const AT_WORK = 3;
/** What a single-purpose device does. */
const ALONE: readonly SpanName[] = ['exposure', 'focus', 'filter', 'slew'];

/** What a guider's state is named after, and nothing else happens in it. */
const OF_STAR: readonly SpanName[] = ['guiding-rest', 'star-gap'];

/** The states of a log whose lines say which is left and which is entered; `null` if it is not such a log. */
export interface States {
  readonly candidates: readonly Candidate[];
  /** What distinguishes two or three exposing devices. */
  readonly cameras: readonly string[] | null;
  has(kind: Kind): boolean;
  /** The events of the kinds, once everything is classified. */
  changesBy(verdicts: ReadonlyMap<Kind, Verdict>): ReadonlyMap<Kind, StateChangeEvents>;
}

/** The states of devices, or of the program as a whole. */
export function statesIn(
  kinds: readonly Kind[],
  extra: ReadonlyMap<Kind, ReadonlyMap<EventName, number>>,
): States | null {
  const transitions = transitionsIn(kinds);
  if (transitions.length === 0) return null;
  const halves = halvesOf(transitions);
  const own = new Set(transitions.map(({ kind }) => kind));
  const families = [...groupBy(transitions, ({ family }) => family)];
  const isNamed = families.some(([family]) => isGuider(plainWords(family)));
  const suspected = new Map(families.map(([family, of]) => [family, machineOf(family, of, isNamed)] as const));
  const machines = withoutSuspects(suspected);
  const hasGuider = [...machines.values()].some((machine) => machine.isGuider);
  return {
    candidates: halves.flatMap((half) => {
      const machine = machines.get(half.family);
      return machine === undefined ? [] : [candidateOf(half, machine, hasGuider, extra)];
    }),
    // A second camera whose states are not understood is one for the names of the trains still.
    cameras: camerasIn(suspected),
    has: (kind) => own.has(kind),
    changesBy: (verdicts) =>
      stateChangeEvents(
        transitions,
        halves,
        guiderTurns(transitions.filter(({ family }) => machines.get(family)?.isGuider === true)),
        verdicts,
      ),
  };
}

/**
 * Where a device is named as exposing, stays of the same length in an unknown state of another are no exposures if the
 * name of that one says what it is about: `calm`.
 */
function withoutSuspects(machines: ReadonlyMap<string, Machine>): ReadonlyMap<string, Machine> {
  const exposes = ({ named }: Machine): boolean => [...named.values()].some((own) => own.has('exposure'));
  if (![...machines.values()].some(exposes)) return machines;
  return new Map(
    [...machines].map(([family, machine]) => [
      family,
      namesSubject(family) && !exposes(machine) ? { ...machine, exposes: null } : machine,
    ]),
  );
}

const MOST_CAMERAS = 3;

/** The words in which the names of exposing devices differ. */
function camerasIn(machines: ReadonlyMap<string, Machine>): readonly string[] | null {
  const names = [...machines].flatMap(([name, machine]) => (doesExpose(machine) ? [wordsIn(name)] : []));
  const own = names.flatMap((words, i) => {
    const others = names.filter((_, k) => k !== i).flat();
    return words.find((word) => /\p{L}/u.test(word) && !others.includes(word)) ?? [];
  });
  return own.length > 1 && own.length <= MOST_CAMERAS && own.length === names.length ? own.map(nameKey) : null;
}

function doesExpose({ isGuider: guides, named, exposes, only }: Machine): boolean {
  return !guides && (exposes !== null || only === 'exposure' || [...named.values()].some((own) => own.has('exposure')));
}

/** Entering or leaving a state, with its possible events. */
function candidateOf(
  { kind, isEntered, wholes, state }: Half,
  { words, isGuider: isGuiding, spans, named, rests, only: one, exposes }: Machine,
  hasGuider: boolean,
  extra: ReadonlyMap<Kind, ReadonlyMap<EventName, number>>,
): Candidate {
  const does = one ?? (state === exposes ? 'exposure' : null);
  // What another state of the device is named after does not begin in this one.
  const elsewhere = new Set([...named].flatMap(([name, own]) => (name === state ? [] : [...own])));
  for (const span of named.get(state) ?? []) elsewhere.delete(span);
  const rested = OF_STAR.find((span) => named.get(state)?.size === 1 && named.get(state)?.has(span));
  const only = (isEntered ? ENTERING : LEAVING).filter((event) => {
    const span = isEntered ? spanBegunBy(event) : spanEndedBy(event);
    if (rests.has(state)) return event === 'frame-saved' || event === 'cooler';
    if (state === exposes && span !== 'exposure') return false;
    // A paused guider is paused, whatever the mount does meanwhile.
    if (isGuiding && rested !== undefined) return span === rested;
    if (hasGuider && OF_GUIDING.test(event)) return false;
    return span === undefined || (!(ALONE.includes(span) && elsewhere.has(span)) && spans?.has(span) !== false);
  });
  const more = new Map<EventName, number>(
    only.flatMap((event): [EventName, number][] =>
      does !== null && (isEntered ? spanBegunBy(event) : spanEndedBy(event)) === does ? [[event, AT_WORK]] : [],
    ),
  );
  const bare = stateChange(kind.wording.slice(kind.lead), words) ?? new Map<EventName, number>();
  for (const whole of wholes) {
    const share = whole.count / kind.count;
    // `idle → turning`: a device that leaves its idle state does what it is made for.
    for (const [event, value] of stateChange(whole.wording.slice(whole.lead), words) ?? [])
      more.set(event, (more.get(event) ?? 0) + share * Math.max(0, value - (bare.get(event) ?? 0)));
    for (const [event, value] of extra.get(whole) ?? []) more.set(event, (more.get(event) ?? 0) + share * value);
  }
  return { kind, only, extra: new Map([...more].filter(([event]) => only.includes(event))) };
}
