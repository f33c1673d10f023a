import { leaderIn, rulePattern } from '../rule-pattern.js';
import { TemplateTree, templateText, type Template } from '../template-tree.js';
import { tokenize, type Gap, type Token } from '../tokens.js';
import { plainWords } from '../lexicon/plain-words.js';
import { byState, type Sorted, turningPairs, wordedStates } from './binary-states.js';
import type { Kind, Slot } from './kind.js';
import {
  apartFrom,
  countedLetters,
  joinedTo,
  numberedDevices,
  withNumbersFixed,
  wordsWithNumbers,
} from './numbered-words.js';
import { typeOf } from './values.js';

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
  const takenApart = (text: string): readonly Token[] =>
    withNumbersFixed(joinedTo(apartFrom(tokenize(text, decimalComma), letters), devices), numbered);
  const topics = new Set([...topicsIn(messages), ...devices]);
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
    .map((one) => textKind(one, decimalComma, takenApart, { words, numbered }));
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
  for (const [first, last] of runs) {
    if (leaderIn(template.wildcards.get(first)?.values) !== null) continue;
    const perLine = tokens.map((own) =>
      own
        .slice(first, last + 1)
        .map((token, i) => (i > 0 && token.gap !== '' ? ` ${token.text}` : token.text))
        .join(''),
    );
    const values = [...new Set(perLine)].slice(0, 24);
    const type = typeOf(values);
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
  return {
    count: template.count,
    firstLine: template.firstLine,
    examples: [...new Set(messages.map(({ text }) => text))].slice(0, EXAMPLES),
    summary: templateText(template),
    wording: worded(
      template.tokens.map((token, i) => `${gapText(i > 0 ? template.gaps[i] : '')}${token ?? '#'}`).join(''),
      codes,
    ),
    lead: 0,
    hints: '',
    slots: [...slots.keys()],
    lines: messages.map(({ line }) => line),
    atMs: messages.map(({ atMs }) => atMs),
    when: (groups) =>
      rulePattern(
        template,
        runs,
        new Map(
          [...groups].flatMap(([slot, name]) => (slots.has(slot) ? [[slots.get(slot) ?? 0, name] as const] : [])),
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

/** A day and its month, or a whole date. */
const DAY =
  /^(?:(?:20\d{2}[-./](?:0?[1-9]|1[0-2])[-./]\d{1,2}|\d{1,2}[-./]\d{1,2}[-./](?:20)?\d{2})|(?:0?[1-9]|[12]\d|3[01])[./](?:0?[1-9]|1[0-2])|(?:0?[1-9]|1[0-2])[-/](?:0?[1-9]|[12]\d|3[01]))$/;

/** Start of a time of day preceded by day and month: `begun: 28.03. 20:31:13`. */
function dateBefore(template: Template, clock: number): number {
  const at = template.tokens[clock - 1] === '.' ? clock - 2 : clock - 1;
  const values = [...(template.wildcards.get(at)?.values ?? [])];
  return values.length > 0 && values.every((value) => DAY.test(value)) ? at : clock;
}

/** The three words before a token, nearest first, without marks. */
function wordsBefore(template: Template, i: number): string[] {
  const words: string[] = [];
  for (let k = i - 1; k >= 0 && words.length < 3 && i - k <= 7; k--) {
    const token = template.tokens[k];
    if (token === null || token === undefined) break;
    const plain = plainWords(token);
    if (plain !== '') words.push(...plain.split(' ').reverse());
    // Text on the line above belongs to something else.
    if (template.gaps[k] === 'line') break;
  }
  return words;
}

const OF_ARC = /^(?:d['’])?(?:arco?|łuku|luku|oblouku)$/iu;

/** The word or arrow directly after a token. */
function wordAfter(template: Template, i: number): string {
  const next = template.tokens[i + 1] ?? '';
  if (next === '-' && template.tokens[i + 2] === '>') return '->';
  // `14,4 sekundy łuku`, `secondi d’arco` are angles.
  if (template.tokens.slice(i + 2, i + 4).some((token) => token !== null && OF_ARC.test(token))) return 'arcsec';
  return plainWords(next) === '' ? next : plainWords(next);
}
