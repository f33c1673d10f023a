import { groupBy } from '../../../../model/index.js';
import { compilePattern } from '../../pattern/pattern.js';
import { StateMessages } from '../../state-messages.js';
import { escaped } from '../escaped.js';
import { isLevel } from '../kinds/levels.js';
import type { Message } from '../kinds/text-kinds.js';
import { isIdle } from '../lexicon/state-changes.js';

/** The template of a message in which a device enters a state. */
interface Come {
  readonly device: string;
  readonly state: string;
}

/** The device before its state, or in brackets after it. */
const NAME = String.raw`\p{L}[\p{L}\p{N}_.-]*`;
const ARROW = String.raw`(?:(?:[-=]>|→)\s*)?`;
const FORMS = [
  (devices: string, lead: string) =>
    String.raw`^\[?(?<device>${devices})\]?\s*[:|;,-]?\s+${ARROW}${lead}(?<state>\D+)$`,
  (devices: string, lead: string) => String.raw`^\[?(?<device>${devices})[\]:|;,]\s*${ARROW}${lead}(?<state>\D+)$`,
  (devices: string, lead: string) => String.raw`^${ARROW}${lead}(?<state>\D+?)\s*\((?<device>${devices})\)$`,
] as const;
const BETWEEN = /.(?:->|=>|→|»|\s>\s)/;

const MIN_LINES = 6;
const MIN_ALL = 20;
const MOST_STATES = 20;
const NEARLY_ALL = 0.95;
/** Minimum fraction of such messages in which a device comes to rest, and maximum fraction of all without values. */
const RESTS = 0.2;
const SHARE = 0.5;
/** Maximum number of words of a state; minimum fraction of devices that come to rest. */
const MOST_WORDS = 4;
const DEVICES_AT_REST = 0.5;

/**
 * The pattern of messages that each name a device and its new state, in groups `device` and `state`; `null` if messages
 * say what happens.
 */
export function stateLinesIn(messages: readonly Message[]): string | null {
  const plain = messages.filter(({ text }) => !/\d.*\d/.test(text));
  for (const form of FORMS) {
    const unled = comesIn(plain, form(NAME, ''));
    const lead = leadOf(unled);
    const come = lead === '' ? unled : comesIn(plain, form(NAME, lead));
    const devices = [...groupBy(come, ({ device }) => device)].filter(
      ([name, own]) => !isLevel(name) && isOfStates(own),
    );
    const own = devices.flatMap(([, one]) => one);
    const resting = own.filter(isRest).length;
    const idle = devices.filter(([, one]) => one.some(isRest)).length;
    if (
      devices.length < 2 ||
      idle < DEVICES_AT_REST * devices.length ||
      own.length < Math.max(MIN_ALL, SHARE * plain.length)
    )
      continue;
    if (resting < RESTS * own.length || own.filter(({ state }) => BETWEEN.test(state)).length > 0) continue;
    return form(devices.map(([name]) => escaped(name)).join('|'), lead);
  }
  return null;
}

/** The messages, with new states of a device rewritten as changes from the previous one. */
export function changesIn(messages: readonly Message[], when: string | null): Message[] {
  if (when === null) return messages.slice(0);
  const states = new StateMessages(compilePattern(when, false));
  return messages.map((message) => ({ ...message, text: states.take(message.text) }));
}

function comesIn(messages: readonly Message[], pattern: string): Come[] {
  // Created once: to make an expression of a text takes longer than to apply it.
  const form = new RegExp(pattern, 'u');
  return messages.flatMap(({ text }) => {
    const { device, state } = form.exec(text)?.groups ?? {};
    return device === undefined || state === undefined ? [] : [{ device, state: state.trim() }];
  });
}

/** Whether a device is idle in that state, named in a word or two: a sentence says what happens. */
function isRest({ state }: Come): boolean {
  return state.split(/\s+/).length <= MOST_WORDS && isIdle(state);
}

/** Whether messages about a device name one state after the other, from a repeating set. */
function isOfStates(own: readonly Come[]): boolean {
  const turns = own.filter(({ state }, i) => i === 0 || state !== own[i - 1]?.state).length;
  const states = new Set(own.map(({ state }) => state)).size;
  const short = own.filter(({ state }) => state.split(/\s+/).length <= MOST_WORDS).length;
  return (
    own.length >= MIN_LINES &&
    short >= NEARLY_ALL * own.length &&
    states > 1 &&
    states <= MOST_STATES &&
    turns >= NEARLY_ALL * own.length
  );
}

/** Messages of a device that name its state after the same word. */
const LED = 0.5;

/** The word that most states begin with, such as `now`, as a pattern. */
function leadOf(come: readonly Come[]): string {
  const firsts = groupBy(come, ({ state }) => /^(\S+)\s/.exec(state)?.[1] ?? '');
  const [[word, own] = ['', []]] = [...firsts].sort((a, b) => b[1].length - a[1].length);
  return word !== '' && own.length >= LED * come.length ? String.raw`(?:${escaped(word)}\s+)?` : '';
}
