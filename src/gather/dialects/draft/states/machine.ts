import { median, spanEndedBy, type EventName, type SpanName } from '../../../../model/index.js';
import { doneBy, isGuider, isIdle, stateChange } from '../lexicon/state-changes.js';
import { isReadingOut } from '../lexicon/said-at-once.js';
import { plainWords } from '../lexicon/plain-words.js';
import { MOTIONS } from '../lexicon/motions.js';
import { stepsOf, type Transition } from './transitions.js';

/** What only a guider does, and what none does. */
const OF_GUIDER: readonly SpanName[] = ['settling', 'dither', 'guiding-rest', 'star-gap'];
const NOT_OF_GUIDER: readonly SpanName[] = ['exposure', 'focus', 'filter', 'slew', 'centre', 'flip'];
/** Also said of a state in which a device does nothing in particular. */
const VAGUE: readonly SpanName[] = ['hold', 'guiding', 'guiding-rest'];
/** Minimum number of states around a central one. */
const HUB = 3;
/** Takes a minute or two each time. */
const BRIEF: readonly SpanName[] = ['focus', 'filter'];
const LONG_MS = 600_000;
const BESIDE_HUB = 0.6;
/** The name of a state says what a device does in it. */
const NAMED = 3;

/** A device with its states. */
export interface Machine {
  readonly words: string;
  readonly isGuider: boolean;
  /** What begins and ends with its states, according to its name. */
  readonly spans: ReadonlySet<SpanName> | null;
  /** What it does in its only active state. */
  readonly only: SpanName | null;
  /** What begins in each state, according to its name. */
  readonly named: ReadonlyMap<string, ReadonlySet<SpanName>>;
  /** An unknown state of an exposing camera, identified by its recurring duration. */
  readonly exposes: string | null;
  /** The states in which it is idle. */
  readonly rests: ReadonlySet<string>;
}

/**
 * What a device does in its states, according to their names and positions among the others.
 *
 * @param hasGuider whether a device of the log is named as the guider: no other is one for its states, a mount dithers
 */
export function machineOf(device: string, own: readonly Transition[], hasGuider: boolean): Machine {
  const words = plainWords(device);
  const states = [...new Set(own.flatMap(({ left, entered }) => [left, entered]))];
  const named = new Map(
    states.map((state) => {
      const change = stateChange(`${state} → ·`, words) ?? new Map<EventName, number>();
      return [
        state,
        new Set([...change].flatMap(([event, value]) => (value >= NAMED ? (spanEndedBy(event) ?? []) : []))),
      ] as const;
    }),
  );
  const all = new Set([...named.values()].flatMap((spans) => [...spans]));
  const isMount = doneBy(words)?.has('slew') === true;
  const guides =
    isGuider(words) ||
    (device !== '' &&
      !hasGuider &&
      !isMount &&
      OF_GUIDER.some((span) => all.has(span)) &&
      !NOT_OF_GUIDER.some((span) => all.has(span)));
  const [first] = [...own].sort((a, b) => a.kind.firstLine - b.kind.firstLine);
  const hub = hubOf(states, own);
  // Between exposures and other actions, a `calm` device is idle: no guiding settles then.
  const exposesElsewhere = [...named].some(([state, own]) => state !== hub && own.has('exposure'));
  const tellsNothing = (state: string): boolean =>
    [...(named.get(state) ?? [])].every(
      (span) => VAGUE.includes(span) || (exposesElsewhere && state === hub && OF_GUIDER.includes(span)),
    );
  const spans = guides ? doneBy('guider') : doneBy(words);
  const isBrief = spans?.size === 1 && BRIEF.some((span) => spans.has(span));
  const long = isBrief ? new Set([...meanStaysMs(own)].flatMap(([state, ms]) => (ms > LONG_MS ? [state] : []))) : null;
  const rests = states.filter(
    (state) =>
      // No wheel turns for ten minutes, whatever the words; after a failure it is over.
      (long !== null && (long.has(state) || MOTIONS.fail.test(plainWords(state)))) ||
      /^\W*#/.test(state) ||
      (!guides && isIdle(state)) ||
      ([...named].some(([other, of]) => other !== state && of.has('exposure')) && isReadingOut(state)) ||
      (tellsNothing(state) && (state === first?.left || state === hub)),
  );
  return {
    words: guides ? `${words} guider` : words,
    isGuider: guides,
    spans,
    exposes:
      guides || all.has('exposure') || spans?.has('exposure') === false ? null : exposingState(own, rests, named),
    named: new Map([...named].filter(([state]) => !rests.includes(state))),
    only: spans?.size === 1 && states.length === rests.length + 1 ? ([...spans][0] ?? null) : null,
    rests: new Set(rests),
  };
}

/** Durations of all stays in the states of a device, ms. */
function staysMs(own: readonly Transition[]): ReadonlyMap<string, readonly number[]> {
  const stays = new Map<string, number[]>();
  for (const steps of stepsOf(own))
    steps.forEach(({ entered, atMs }, i) => {
      const ms = (steps[i + 1]?.atMs ?? NaN) - atMs;
      if (!Number.isNaN(ms)) stays.set(entered, [...(stays.get(entered) ?? []), ms]);
    });
  return stays;
}

/** Their average duration. */
function meanStaysMs(own: readonly Transition[]): ReadonlyMap<string, number> {
  return new Map([...staysMs(own)].map(([state, ms]) => [state, ms.reduce((sum, one) => sum + one, 0) / ms.length]));
}

const MIN_STAYS = 8;
const EXPOSED_MS = { least: 8000, most: 1_800_000 } as const;
const EQUAL = 0.6;

/** The unknown state with the longest stays, with the recurring durations of planned exposures. */
function exposingState(
  own: readonly Transition[],
  rests: readonly string[],
  named: ReadonlyMap<string, ReadonlySet<SpanName>>,
): string | null {
  const [longest] = [...staysMs(own)]
    .filter(([state]) => !rests.includes(state))
    .map(([state, ms]) => ({ state, ms, all: ms.reduce((sum, one) => sum + one, 0) }))
    .sort((a, b) => b.all - a.all);
  if (longest === undefined || longest.ms.length < MIN_STAYS) return null;
  if ((named.get(longest.state)?.size ?? 0) > 0) return null;
  const middle = median(longest.ms);
  const equal = longest.ms.filter((ms) => Math.abs(ms - middle) <= 2000 + 0.02 * middle).length;
  return middle >= EXPOSED_MS.least && middle <= EXPOSED_MS.most && equal >= EQUAL * longest.ms.length
    ? longest.state
    : null;
}

/** The central state of a device that has several. */
function hubOf(states: readonly string[], own: readonly Transition[]): string | undefined {
  const beside = (state: string): number =>
    new Set(own.flatMap(({ left, entered }) => (left === state ? [entered] : entered === state ? [left] : []))).size;
  const [hub] = states
    .map((state) => ({ state, count: beside(state) }))
    .sort((a, b) => b.count - a.count)
    .filter(({ count }) => states.length > HUB && count >= Math.max(HUB, BESIDE_HUB * (states.length - 1)));
  return hub?.state;
}
