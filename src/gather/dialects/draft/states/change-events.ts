import { beginOf, EVENT_NAMES, groupBy, spanBegunBy, spanEndedBy, type EventName } from '../../../../model/index.js';
import { hasFile } from '../classify/own-evidence.js';
import type { Verdict } from '../classify/classify.js';
import type { Offer } from '../classify/offers.js';
import type { StatedExposure } from '../classify/structure.js';
import type { Kind } from '../kinds/kind.js';
import { isReadingOut } from '../lexicon/said-at-once.js';
import { isIdle } from '../lexicon/state-changes.js';
import type { Half } from './halves.js';
import type { Transition } from './transitions.js';

/** A guider's states themselves say when it guides. */
const OF_GUIDING = /^guiding-(?:begin|end)$/;

/** Minimum fraction of stays in a state during which a dither begins, for a camera waiting for it. */
const WAITED = 0.7;
const WAIT_SLACK_MS = 1000;

/** The events of a kind's lines: what ends as they leave a state, and what begins as they enter another. */
export interface StateChangeEvents {
  readonly left: EventName | null;
  readonly entered: EventName | null;
  readonly guiding: EventName | null;
  readonly saved: EventName | null;
  readonly verdict: Verdict;
  /** The half that was classified in its place: its slots correspond to those of the kind, in order. */
  readonly half: Kind;
}

/** The events of the kinds, once leaving and entering each state are classified. */
export function stateChangeEvents(
  transitions: readonly Transition[],
  halves: readonly Half[],
  turns: ReadonlyMap<Kind, EventName>,
  verdicts: ReadonlyMap<Kind, Verdict>,
): ReadonlyMap<Kind, StateChangeEvents> {
  const events = eventsOfHalves(halves, verdicts);
  const namesFiles = halves.some((half) => hasFile(half.kind) && events.get(half) === 'frame-saved');
  const halfOf = (kind: Kind, isEntered: boolean): Half | undefined =>
    halves.find((half) => half.isEntered === isEntered && half.wholes.includes(kind));
  return new Map(
    transitions.flatMap(({ kind }): [Kind, StateChangeEvents][] => {
      const [left, entered] = [halfOf(kind, false), halfOf(kind, true)];
      const [ending, beginning] = [left, entered].map((half) => half && verdicts.get(half.kind));
      if (left === undefined || entered === undefined || ending === undefined || beginning === undefined) return [];
      const guiding = turns.get(kind) ?? null;
      const ended = events.get(left) ?? null;
      const next = events.get(entered) ?? null;
      // If lines name the saved files, no other line reports saving.
      const isSaved = namesFiles ? hasFile(kind) : next === 'frame-saved';
      const change: StateChangeEvents = {
        // A lost star is not found because guiding stops.
        left: guiding === 'guiding-end' && ended === 'star-gap-end' ? null : ended,
        saved: isSaved ? 'frame-saved' : null,
        guiding,
        entered: next === 'frame-saved' ? null : next,
        verdict: {
          ...(next === null ? ending : beginning),
          offers: (doubted) => offersOfBoth(ending.offers(doubted), beginning.offers(doubted)),
        },
        half: entered.kind,
      };
      return [[kind, change]];
    }),
  );
}

/** What ends as a state is left, what begins and what happens as the next is entered: likeliest first. */
function offersOfBoth(left: readonly Offer[], entered: readonly Offer[]): readonly Offer[] {
  return [
    ...left.filter(([event]) => beginOf(event) !== undefined),
    ...entered.filter(([event]) => beginOf(event) === undefined),
  ].sort((a, b) => b[1] - a[1]);
}

/** The events of lines that change states, in order. */
export function eventsOfChange({ left, saved, guiding, entered }: StateChangeEvents): EventName[] {
  const isOff = guiding === 'guiding-end';
  return [left, saved, ...(isOff ? [entered, guiding] : [guiding, entered])].filter((event) => event !== null);
}

/** The event after which the rule is named. */
export function mainEvent({ left, saved, guiding, entered }: StateChangeEvents): EventName | null {
  return entered ?? guiding ?? saved ?? left;
}

/** The exposure that a kind opens, with the slot of its length. */
export function statedOf(
  kind: Kind,
  change: StateChangeEvents | undefined,
  stated: readonly StatedExposure[],
): StatedExposure | undefined {
  const own = stated.find(({ begin }) => begin === (change?.half ?? kind));
  if (change === undefined || own === undefined) return own;
  const seconds = kind.slots[change.half.slots.indexOf(own.seconds)];
  return seconds === undefined ? undefined : { ...own, begin: kind, seconds };
}

function eventsOfHalves(
  halves: readonly Half[],
  verdicts: ReadonlyMap<Kind, Verdict>,
): ReadonlyMap<Half, EventName | null> {
  const events = new Map<Half, EventName | null>();
  for (const own of groupBy(halves, ({ family }) => family).values())
    for (const [half, event] of agreed(own, verdicts)) events.set(half, event);
  const ofHalves = new Set(halves.map(({ kind }) => kind));
  const dithersMs = [
    ...[...events].flatMap(([{ kind }, event]) => (event === 'dither-begin' ? kind.atMs : [])),
    ...[...verdicts].flatMap(([kind, { event }]) => (event === 'dither-begin' && !ofHalves.has(kind) ? kind.atMs : [])),
  ];
  for (const own of groupBy(halves, ({ device }) => device).values()) {
    const waiting = own.some((half) => events.get(half) === 'exposure-begin') ? waitIn(own, events, dithersMs) : null;
    for (const half of own) if (half.isEntered && half.state === waiting) events.set(half, 'dither-ready');
  }
  return events;
}

/**
 * The state in which a camera waits for dithers: they begin during nearly all of its stays; `null` if there is none.
 */
function waitIn(
  own: readonly Half[],
  events: ReadonlyMap<Half, EventName | null>,
  dithersMs: readonly number[],
): string | null {
  const entries = own
    .flatMap((half) => (half.isEntered ? half.kind.atMs.map((atMs) => ({ atMs, half })) : []))
    .sort((a, b) => a.atMs - b.atMs);
  const stays = new Map<string, { all: number; during: number }>();
  entries.forEach(({ atMs, half }, i) => {
    const one = stays.get(half.state) ?? { all: 0, during: 0 };
    stays.set(half.state, one);
    one.all++;
    const nextMs = entries[i + 1]?.atMs ?? Infinity;
    if (dithersMs.some((ms) => ms >= atMs - WAIT_SLACK_MS && ms < nextMs - WAIT_SLACK_MS)) one.during++;
  });
  const isFree = (state: string): boolean =>
    own.every((half) => half.state !== state || (events.get(half) ?? null) === null);
  // Where a camera only exposes or does not, it waits for nothing in particular.
  if (stays.size <= 2) return null;
  const [best] = [...stays].filter(
    ([state, { all, during }]) =>
      all > 1 && during >= WAITED * all && isFree(state) && !isIdle(state) && !isReadingOut(state),
  );
  return best?.[0] ?? null;
}

/** The events for entering and leaving the states of a device: what begins in one state ends there. */
function agreed(own: readonly Half[], verdicts: ReadonlyMap<Kind, Verdict>): [Half, EventName | null][] {
  const weights = new Map<string, { state: string; span: string; weight: number }>();
  for (const { kind, isEntered, state } of own) {
    const { event = null, score = 0 } = verdicts.get(kind) ?? {};
    const span = event === null ? undefined : isEntered ? spanBegunBy(event) : spanEndedBy(event);
    if (span === undefined) continue;
    const key = `${state}\0${span}`;
    const one = weights.get(key) ?? { state, span, weight: 0 };
    weights.set(key, one);
    one.weight += score * kind.count;
  }
  // A device does one thing per state, and each thing in one state only.
  const meaning = new Map<string, string>();
  for (const { state, span } of [...weights.values()].sort((a, b) => b.weight - a.weight))
    if (!meaning.has(state) && ![...meaning.values()].includes(span)) meaning.set(state, span);
  return own.map((half) => {
    const { event = null } = verdicts.get(half.kind) ?? {};
    const span = meaning.get(half.state);
    if (event !== null && (half.isEntered ? spanBegunBy(event) : spanEndedBy(event)) === undefined)
      return [half, event];
    if (span === undefined) return [half, null];
    const meant = EVENT_NAMES.find((name) => (half.isEntered ? spanBegunBy(name) : spanEndedBy(name)) === span) ?? null;
    // A guider that enters another state continues guiding.
    return [half, meant !== null && OF_GUIDING.test(meant) && event !== meant ? null : meant];
  });
}
