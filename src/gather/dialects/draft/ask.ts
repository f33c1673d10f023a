import { isMap, isSeq, parseDocument } from 'yaml';
import { beginOf, endOf, type EventName } from '../../../model/index.js';
import type { WhenText } from './kinds/kind.js';
import type { DraftReport, UnusedLines } from './report.js';
import { writeDraft } from './write-draft.js';
import { UNUSED_TITLE, writeUnused } from './write-rules.js';

/** A kind of line to be decided on. */
export interface Question {
  readonly count: number;
  readonly firstLine: number;
  readonly examples: readonly string[];
  /** The likeliest events, best first. */
  readonly nearest: readonly EventName[];
  /** How many kinds follow in this walk, and how many are left for another. */
  readonly left: number;
  readonly beyond: number;
}

/**
 * Number of kinds that one walk asks about: at half a minute each this takes ten minutes, and later kinds matter less.
 */
export const QUESTIONS = 20;

/** The decision on a kind: an event, ignored on purpose, postponed, or the end of the walk. */
export type Answer = { readonly event: EventName } | 'ignore' | 'later' | 'stop';

/**
 * Walks through the kinds of line that a draft could not classify. Every answer is saved immediately, so the walk can
 * be stopped at any time and resumed. The most important kinds come first, and no walk asks more than `QUESTIONS`.
 *
 * @param earlier the dialect file as the previous walk left it, initially `null`
 * @param save is given the whole dialect file after every answer
 * @returns the dialect file at the end
 */
export async function askThrough(
  report: DraftReport,
  earlier: string | null,
  ask: (question: Question) => Promise<Answer>,
  save: (yaml: string) => Promise<void>,
): Promise<string> {
  const base = earlier === null ? writeDraft({ ...report, unused: [] }) : withoutUnused(earlier);
  const document = parseDocument(base);
  const [error] = document.errors;
  if (error !== undefined) throw new Error(`the dialect cannot be continued: ${error.message.split('\n')[0] ?? ''}`);
  const known = new Set(['lines', 'ignore'].flatMap((key) => whensIn(document.get(key))));
  const open = inOrder(report.unused.filter(({ when }) => !known.has(plainWhen(when))));
  const logged = new Set(report.rules.flatMap(({ events }) => events.map(({ event }) => event)));
  const kept: UnusedLines[] = [];
  const text = (rest: readonly UnusedLines[]): string =>
    `${document.toString({ lineWidth: 0 }).trimEnd()}\n${writeUnused({ ...report, unused: [...kept, ...rest] }).join('\n')}\n`;
  for (const [i, lines] of open.entries()) {
    const rest = open.slice(i + 1);
    if (i === QUESTIONS) {
      kept.push(lines, ...rest);
      break;
    }
    const { count, firstLine, examples, nearest } = lines;
    const answer = await ask({ count, firstLine, examples, nearest, ...stillToCome(open.length - i - 1, i) });
    if (answer === 'stop') {
      kept.push(lines, ...rest);
      break;
    }
    if (answer === 'later') kept.push(lines);
    else if (answer === 'ignore') add(document, 'ignore', lines.when);
    else {
      const rule = lines.choice.ruleFor(answer.event, logged);
      for (const { event } of rule.events) {
        logged.add(event);
        withoutWorkedOut(document, event, rule);
      }
      add(document, 'lines', ruleValue(rule));
    }
    await save(text(rest));
  }
  return text([]);
}

function stillToCome(rest: number, asked: number): Pick<Question, 'left' | 'beyond'> {
  const left = Math.min(rest, QUESTIONS - asked - 1);
  return { left, beyond: rest - left };
}

/**
 * Kinds that may be exposures come first; those without a likely event come last. Within each group the kinds with most
 * lines come first.
 */
function inOrder(lines: readonly UnusedLines[]): UnusedLines[] {
  const rank = ({ nearest: [first] }: UnusedLines): number =>
    first === undefined ? 2 : /^(?:exposure|frame)-/.test(first) ? 0 : 1;
  return [...lines].sort((a, b) => rank(a) - rank(b) || b.count - a.count || a.firstLine - b.firstLine);
}

type Document = ReturnType<typeof parseDocument>;

function add(document: Document, key: 'lines' | 'ignore', value: unknown): void {
  const list = document.get(key);
  const node = document.createNode(value);
  if (isSeq(list)) list.add(node);
  else document.set(key, document.createNode([value]));
}

type Answered = ReturnType<UnusedLines['choice']['ruleFor']>;

function ruleValue(rule: Answered): Record<string, unknown> {
  const { when, events, fields, train, ago, lasted, lasts } = rule;
  const names = events.map(({ event }) => event);
  const at = Object.fromEntries(
    events.flatMap(({ event, at: place }) => (place === undefined ? [] : [[event, place]])),
  );
  return {
    when,
    event: names.length === 1 ? names[0] : names,
    ...(Object.keys(at).length > 0 ? { at } : {}),
    ...(Object.keys(fields).length > 0 ? { fields } : {}),
    ...Object.fromEntries(Object.entries({ train, ago, lasted, lasts }).filter(([, value]) => value !== undefined)),
  };
}

/**
 * Removes begins and ends that rules derive from a stated duration where lines now state them directly: they would be
 * duplicated.
 */
function withoutWorkedOut(document: Document, event: EventName, { train }: Answered): void {
  const list = document.get('lines');
  for (const item of isSeq(list) ? list.items : []) {
    if (!isMap(item)) continue;
    const { event: made, train: own } = item.toJSON() as {
      readonly event: EventName | EventName[];
      readonly train?: string;
    };
    const names = [made].flat();
    if (own !== undefined && train !== undefined && own !== train) continue;
    if (names.some((name) => beginOf(name) === event)) item.delete('lasted');
    if (names.some((name) => endOf(name) === event)) item.delete('lasts');
  }
}

/** The file without its list of unclassified lines, which is rewritten. */
function withoutUnused(yaml: string): string {
  const at = yaml.indexOf(UNUSED_TITLE);
  return at < 0 ? yaml : yaml.slice(0, at);
}

/** The patterns of a list of rules, without group names. */
function whensIn(list: unknown): string[] {
  if (!isSeq(list)) return [];
  return list.items.flatMap((item) => {
    const rule: unknown =
      isMap(item) && item.has('when') ? item.toJSON().when : (item as { toJSON(): unknown }).toJSON();
    return typeof rule === 'string' || (typeof rule === 'object' && rule !== null) ? [plainWhen(rule as WhenText)] : [];
  });
}

function plainWhen(when: WhenText): string {
  const plain = (pattern: string): string => pattern.replace(/\(\?<\w+>((?:[^()\\]|\\.)*)\)/g, '$1');
  if (typeof when === 'string') return plain(when);
  return Object.entries(when)
    .map(([path, pattern]) => `${path}: ${plain(pattern)}`)
    .join('\n');
}
