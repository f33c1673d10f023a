import { leaderIn, rulePattern } from '../rule-pattern.js';
import { TemplateTree, templateText, type Template } from '../template-tree.js';
import { tokenize, type Gap, type Token } from '../tokens.js';
import { byState, type Sorted, turningPairs, wordedStates } from './binary-states.js';
import type { Kind, Slot } from './kind.js';
import { markBetween, takenApartAt, type MarkBetween } from './marks-between.js';
import {
  apartFrom,
  countedLetters,
  joinedTo,
  numberedDevices,
  withNumbersFixed,
  wordsWithNumbers,
} from './numbered-words.js';
import { segmentsOf } from './segments.js';
import { typeInText, typeOf } from './values.js';
import { dateBefore, wordAfter, wordsBefore } from './words-around.js';

/** A message to be classified: its text, the number of its first line, its time in ms or NaN. */
export interface Message {
  readonly text: string;
  readonly line: number;
  readonly atMs: number;
}

/** Number of occurrences of a kind whose values are kept. */
const KEPT = 3000;
const EXAMPLES = 3;
/** Marks that may precede a device. */
const MARKS_BEFORE = 2;
const MARKER_KINDS = 4;
/** Minimum number of messages for a word to be common, and how many are compared. */
const COMMON = 0.6;
const COMPARED = 400;

interface Found {
  readonly template: Template;
  readonly messages: Message[];
}

/**
 * The kinds of message in a log, most common first.
 *
 * @param letters that precede increasing numbers
 * @param codes of letters and digits, `a1`, that are words
 */
export function textKinds(
  messages: readonly Message[],
  decimalComma: boolean,
  letters = countedLetters(messages.map(({ text }) => text)),
  codes: Iterable<string> = [],
): Kind[] {
  const words = new Set(codes);
  const devices = new Set([...numberedDevices(messages.map(({ text }) => text)), ...words]);
  const numbered = wordsWithNumbers(messages.map(({ text }) => text));
  const paths = topicsIn(messages);
  const between = paths.size > 0 ? null : markBetween(messages.map(({ text }) => text));
  const tokensIn = (text: string): readonly Token[] => tokenize(text, decimalComma);
  const takenApart = (text: string): readonly Token[] => {
    const tokens = between === null ? tokensIn(text) : takenApartAt(between, text, tokensIn);
    return withNumbersFixed(joinedTo(apartFrom(tokens, letters), devices), numbered);
  };
  const topics = new Set([...paths, ...devices]);
  const tree = new TemplateTree(decimalComma, commonWords(messages, decimalComma), topics, takenApart);
  const found = new Map<Template, Found>();
  for (const message of messages) {
    const template = tree.add(message.text, message.line);
    if (template === null) continue;
    const one = found.get(template) ?? { template, messages: [] };
    found.set(template, one);
    if (one.messages.length < KEPT) one.messages.push(message);
  }
  const markers = markersIn([...found.keys()]);
  for (const { template } of found.values()) keepMarkers(template, markers);
  const tokensOf = ({ text }: Message): readonly Token[] => takenApart(text);
  const pairs = turningPairs([...found.values()], tokensOf);
  return [...found.values()]
    .flatMap((one) => byState(one, tokensOf, pairs))
    .sort((a, b) => b.template.count - a.template.count || a.template.firstLine - b.template.firstLine)
    .map((one) => textKind(one, decimalComma, takenApart, { words, numbered, between }));
}

/** Words in most messages, such as levels. */
function commonWords(messages: readonly Message[], decimalComma: boolean): Set<string> {
  const sample = messages.slice(0, COMPARED);
  const counts = new Map<string, number>();
  for (const { text } of sample)
    for (const word of new Set(tokenize(text, decimalComma).map((token) => token.text)))
      counts.set(word, (counts.get(word) ?? 0) + 1);
  return new Set([...counts].filter(([, count]) => count > COMMON * sample.length).map(([word]) => word));
}

/** Minimum fraction of lines that begin with a topic, and its minimum frequency, absolute and average. */
const WITH_TOPIC = 0.5;
const MOST_TOPICS = 80;
const PER_TOPIC = 4;
const TOPIC = /^(?:\/?[\p{L}\d_-]+(?:\/[\p{L}\d_-]+)+|\/[\p{L}\d_-]+)(?=[\s:=?])/u;

/** The first words of messages that name their subject as a path: `hut/left/shutter open`. */
function topicsIn(messages: readonly Message[]): ReadonlySet<string> {
  const found = messages.flatMap(({ text }) => TOPIC.exec(text)?.[0] ?? []);
  const topics = new Set(found);
  const isColumn = found.length >= WITH_TOPIC * messages.length && found.length >= PER_TOPIC * topics.size;
  return isColumn && topics.size <= MOST_TOPICS ? topics : new Set();
}

/** A single letter that recurs in several kinds says what happened: `exp B`, `foc B`; it is not a filter. */
function markersIn(templates: readonly Template[]): ReadonlySet<string> {
  const counts = new Map<string, number>();
  for (const { wildcards } of templates)
    for (const { values } of wildcards.values()) {
      const [only] = values;
      if (values.size === 1 && only !== undefined && /^\p{Lu}$/u.test(only))
        counts.set(only, (counts.get(only) ?? 0) + 1);
    }
  return new Set([...counts].filter(([, count]) => count >= MARKER_KINDS).map(([letter]) => letter));
}

function keepMarkers(template: Template, markers: ReadonlySet<string>): void {
  for (const [i, { values }] of template.wildcards) {
    const [only] = values;
    if (values.size !== 1 || only === undefined || !markers.has(only)) continue;
    template.tokens[i] = only;
    template.wildcards.delete(i);
  }
}

/** Words with digits that are not states: codes, and devices by word and number. */
interface Codes {
  readonly words: ReadonlySet<string>;
  readonly numbered: ReadonlySet<string>;
  /** The mark between the parts of messages, which says no more than a blank. */
  readonly between: MarkBetween | null;
}

/** A wording with its state digits as words, except for the number of the device at its beginning. */
function worded(wording: string, { words, numbered }: Codes): string {
  const device = [...numbered].find((one) => wording.slice(0, one.length + MARKS_BEFORE).includes(one));
  const end = device === undefined ? 0 : wording.indexOf(device) + device.length;
  return `${wording.slice(0, end)}${wordedStates(wording.slice(end), words)}`;
}

function textKind(
  { template, messages }: Sorted<Message>,
  decimalComma: boolean,
  takenApart: (text: string) => readonly Token[],
  codes: Codes,
): Kind {
  const runs = runsOf(template);
  const slots = new Map<Slot, number>();
  const tokens = messages.map(({ text }) => takenApart(text));
  const textOf = (first: number, last: number): string[] =>
    tokens.map((own) =>
      own
        .slice(first, last + 1)
        .map((token, i) => (i > 0 && token.gap !== '' ? ` ${token.text}` : token.text))
        .join(''),
    );
  for (const [first, last] of runs) {
    if (leaderIn(template.wildcards.get(first)?.values) !== null) continue;
    const perLine = textOf(first, last);
    const values = [...new Set(perLine)].slice(0, 24);
    const type = typeInText(values);
    const slot: Slot = {
      path: null,
      before: wordsBefore(template, type === 'clock' ? dateBefore(template, first) : first),
      after: wordAfter(template, last),
      type,
      values,
      perLine,
    };
    slots.set(slot, first);
  }
  const spanned = segmentsOf(template, textOf, slots);
  const places = new Map<Slot, number>([
    ...slots,
    ...spanned.map(({ segment, first }) => [segment.slot, first] as const),
  ]);
  return {
    count: template.count,
    firstLine: template.firstLine,
    examples: [...new Set(messages.map(({ text }) => text))].slice(0, EXAMPLES),
    summary: templateText(template),
    wording: worded(
      template.tokens
        .map(
          (token, i) =>
            `${gapText(i > 0 ? template.gaps[i] : '')}${token === codes.between?.mark ? ' ' : (token ?? '#')}`,
        )
        .join(''),
      codes,
    ),
    lead: 0,
    hints: '',
    slots: [...slots.keys()],
    ...(spanned.length === 0 ? {} : { segments: spanned.map(({ segment }) => segment) }),
    lines: messages.map(({ line }) => line),
    atMs: messages.map(({ atMs }) => atMs),
    when: (groups) =>
      rulePattern(
        template,
        new Map([
          ...runs,
          ...spanned.flatMap(({ segment, first, last }) => (groups.has(segment.slot) ? [[first, last] as const] : [])),
        ]),
        new Map(
          [...groups].flatMap(([slot, name]) => (places.has(slot) ? [[places.get(slot) ?? 0, name] as const] : [])),
        ),
        decimalComma,
      ),
  };
}

/** Columns stay separate. */
function gapText(gap: Gap | undefined): string {
  if (gap === undefined || gap === '') return '';
  if (gap === 'line') return ' \n';
  return gap === ' ' ? ' ' : '  ';
}

/** Consecutive placeholders separated by blanks are merged: names of several words. Numbers stay separate. */
function runsOf(template: Template): Map<number, number> {
  const runs = new Map<number, number>();
  for (let i = 0; i < template.tokens.length; i++) {
    if (template.tokens[i] !== null) continue;
    const first = i;
    while (isTextual(template, i) && isTextual(template, i + 1) && template.gaps[i + 1] !== '') i++;
    runs.set(first, i);
  }
  return runs;
}

function isTextual(template: Template, i: number): boolean {
  const values = [...(template.wildcards.get(i)?.values ?? [])];
  return template.tokens[i] === null && values.length > 0 && typeOf(values) === 'text';
}
