import { parseDocument } from 'yaml';
import { CLOCK, type SheetTable } from './sheet-lines.js';
import { SPAN } from './spans.js';

/** Cards of a list, of which so many have lists of their own with times. */
const MIN_CARDS = 8;
const MIN_STEPS = 5;
/** Lines with a name before a colon, of all. */
const NAMED = 0.8;
/** A longer text is not parsed as a list. */
const MAX_CHARACTERS = 2 ** 20;
const MAX_DEPTH = 6;

type Card = Map<string, string>;

/**
 * A YAML list with an entry for each frame, in which further lists say what went on before it (`- {nudge: '22:17:40 -
 * 22:17:43', px: 2.1}`): a table with a row for each entry and a column for each name, those of steps among them.
 * `null` if a text is otherwise.
 */
export function listedCards(lines: readonly string[]): SheetTable | null {
  const parsed = mayBeList(lines) ? parsedList(lines.join('\n')) : null;
  if (parsed === null) return null;
  const lists: (readonly unknown[])[] = [];
  collect(parsed, lists, 0);
  const [items] = lists.sort((a, b) => b.length - a.length);
  if (items === undefined || items.length < MIN_CARDS) return null;
  const columns: string[] = [];
  let steps = 0;
  const cards = items.map((item) => {
    const card: Card = new Map();
    steps += fill(card, columns, item, '', 0);
    return card;
  });
  if (steps < MIN_STEPS) return null;
  return { heading: 'cards', columns, rows: cards.map((card) => columns.map((name) => card.get(name) ?? '')) };
}

/** Whether lines look like such a list: parsing takes long. */
function mayBeList(lines: readonly string[]): boolean {
  const filled = lines.filter((line) => line.trim() !== '');
  const named = filled.filter((line) => /^\s*(?:- *)*[\p{L}_"'{][^:]*:/u.test(line)).length;
  const items = filled.filter((line) => /^\s*- +\S/.test(line)).length;
  return items >= MIN_CARDS && named >= NAMED * filled.length && filled.filter(isStep).length >= MIN_STEPS;
}

const isStep = (line: string): boolean => /^\s/.test(line) && SPAN.test(line);

/** The value of a text as YAML without aliases; `null` if it is none. */
function parsedList(text: string): unknown {
  if (text.length > MAX_CHARACTERS) return null;
  try {
    const document = parseDocument(text, { schema: 'failsafe', uniqueKeys: false, logLevel: 'silent' });
    return document.errors.length > 0 ? null : document.toJS({ maxAliasCount: 0 });
  } catch {
    // An alias, of which a log has no need.
    return null;
  }
}

/** The lists of objects outside of others. */
function collect(value: unknown, lists: (readonly unknown[])[], depth: number): void {
  if (depth > MAX_DEPTH || typeof value !== 'object' || value === null) return;
  if (Array.isArray(value) && value.every((one) => typeof one === 'object' && one !== null)) lists.push(value);
  else if (!Array.isArray(value)) for (const one of Object.values(value)) collect(one, lists, depth + 1);
}

/** Fills a card from an entry; returns the number of steps in its lists. */
function fill(card: Card, columns: string[], value: unknown, path: string, depth: number): number {
  if (depth > MAX_DEPTH) return 0;
  const put = (name: string, text: string, behind = ''): void => {
    // A second step of a name in one entry is in a column of its own.
    let own = name;
    for (let k = 2; card.has(own); k++) own = `${name} ${k}`;
    card.set(own, text);
    if (!columns.includes(own)) columns.splice(behind === '' ? columns.length : columns.indexOf(behind) + 1, 0, own);
  };
  if (typeof value === 'string') {
    put(path, value.replace(/\s+/g, ' ').trim());
    return 0;
  }
  if (Array.isArray(value)) {
    if (value.every((one) => typeof one === 'string')) {
      put(path, value.join(' '));
      return 0;
    }
    return value.reduce<number>((sum, one) => sum + fillStep(put, one), 0);
  }
  if (typeof value !== 'object' || value === null) return 0;
  return Object.entries(value).reduce(
    (sum, [key, one]) =>
      sum + fill(card, columns, one, isInner(one) || path === '' ? key : `${path} ${key}`, depth + 1),
    0,
  );
}

const isInner = (value: unknown): boolean => typeof value === 'object' && value !== null;

/** A step in a list of an entry: what its name says went on from when to when, and further values behind it. */
function fillStep(put: (name: string, text: string, behind?: string) => void, value: unknown): number {
  if (typeof value !== 'object' || value === null) return 0;
  const entries = Object.entries(value).map(([key, one]) => [key, textOf(one)] as const);
  const step = entries.find(([, text]) => SPAN.test(text));
  if (step === undefined) return 0;
  put(...step);
  for (const [key, text] of entries) if (key !== step[0] && !CLOCK.test(text)) put(`${step[0]} ${key}`, text, step[0]);
  return 1;
}

function textOf(value: unknown): string {
  return Array.isArray(value) ? value.join(' → ') : typeof value === 'string' ? value : '';
}
