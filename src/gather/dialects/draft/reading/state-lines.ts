import { groupBy } from '../../../../model/index.js';
import { compilePattern } from '../../pattern/pattern.js';
import { StateMessages } from '../../state-messages.js';
import { escaped } from '../escaped.js';
import type { Message } from '../kinds/text-kinds.js';
import { isIdle } from '../lexicon/state-changes.js';

/** What a message is in which a device comes to a state. */
interface Come {
  readonly device: string;
  readonly state: string;
}

/** The device in front of its state, or in brackets behind it. */
const NAME = String.raw`\p{L}[\p{L}\p{N}_.-]*`;
const ARROW = String.raw`(?:(?:[-=]>|→)\s*)?`;
const FORMS = [
  (devices: string, lead: string) =>
    String.raw`^\[?(?<device>${devices})\]?\s*[:|;,-]?\s+${ARROW}${lead}(?<state>\D+)$`,
  (devices: string, lead: string) => String.raw`^\[?(?<device>${devices})[\]:|;,]\s*${ARROW}${lead}(?<state>\D+)$`,
  (devices: string, lead: string) => String.raw`^${ARROW}${lead}(?<state>\D+?)\s*\((?<device>${devices})\)$`,
] as const;
const BETWEEN = /.(?:->|=>|→)/;

const MIN_LINES = 6;
const MIN_ALL = 20;
const MOST_STATES = 20;
const NEARLY_ALL = 0.95;
/** Messages in which a device comes to rest, of these, and those of all that state no values. */
const RESTS = 0.2;
const SHARE = 0.3;

/**
 * The pattern of the messages of a log that each name a device and the state that it has come to, in groups `device`
 * and `state`; `null` where messages say what happens.
 */
export function stateLinesIn(messages: readonly Message[]): string | null {
  const plain = messages.filter(({ text }) => !/\d.*\d/.test(text));
  for (const form of FORMS) {
    const lead = leadOf(plain.flatMap(({ text }) => comeIn(text, form(NAME, '')) ?? []));
    const come = plain.flatMap(({ text }) => comeIn(text, form(NAME, lead)) ?? []);
    const devices = [...groupBy(come, ({ device }) => device)].filter(([, own]) => isOfStates(own));
    const own = devices.flatMap(([, one]) => one);
    const resting = own.filter(({ state }) => isIdle(state)).length;
    if (devices.length < 2 || own.length < Math.max(MIN_ALL, SHARE * plain.length)) continue;
    if (resting < RESTS * own.length || own.filter(({ state }) => BETWEEN.test(state)).length > 0) continue;
    return form(devices.map(([name]) => escaped(name)).join('|'), lead);
  }
  return null;
}

/** The messages, those of a device that has come to a state as changes from the one before. */
export function changesIn(messages: readonly Message[], when: string | null): Message[] {
  if (when === null) return messages.slice(0);
  const states = new StateMessages(compilePattern(when, false));
  return messages.map((message) => ({ ...message, text: states.take(message.text) }));
}

function comeIn(text: string, pattern: string): Come | null {
  const { device, state } = new RegExp(pattern, 'u').exec(text)?.groups ?? {};
  return device === undefined || state === undefined ? null : { device, state: state.trim() };
}

/** Whether messages about a device name one state after the other, again and again the same. */
function isOfStates(own: readonly Come[]): boolean {
  const turns = own.filter(({ state }, i) => i === 0 || state !== own[i - 1]?.state).length;
  const states = new Set(own.map(({ state }) => state)).size;
  return own.length >= MIN_LINES && states > 1 && states <= MOST_STATES && turns >= NEARLY_ALL * own.length;
}

/** Messages of a device that name its state with the same word in front. */
const LED = 0.5;

/** The word that most states begin with, such as `now`, as a pattern. */
function leadOf(come: readonly Come[]): string {
  const firsts = groupBy(come, ({ state }) => /^(\S+)\s/.exec(state)?.[1] ?? '');
  const [[word, own] = ['', []]] = [...firsts].sort((a, b) => b[1].length - a[1].length);
  return word !== '' && own.length >= LED * come.length ? String.raw`(?:${escaped(word)}\s+)?` : '';
}
