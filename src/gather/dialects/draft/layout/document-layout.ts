import { groupBy } from '../../../../model/index.js';
import { documentRecords, documentTree, isRecord, isRow } from '../../document/document-records.js';
import type { DocumentNode } from '../../document/node.js';
import { escaped } from '../escaped.js';
import { spread } from './layout.js';
import { firstFields, isTime } from '../time/first-fields.js';

/** Minimum fraction of a field's values that are times. */
const MOSTLY = 0.8;
const MIN_TIMES = 3;
/** Rare records, such as cooling, may have their own name for the time. */
const ALL = 1;
const MIN_RECORDS = 10;
const MOST = 0.9;
/** Minimum number of different names of records with the same time field for the names to be subjects. */
const MIN_NAMES = 3;
/** Number of elements that are examined for times. */
const LOOKED_AT = 5000;
/** A modified Julian date of the years 2023 to 2028. */
const MODIFIED_JULIAN = /^6[01]\d{3}[.,]\d+$/;
/** Number of a field's values that are tested as times. */
const TRIED = 200;

/**
 * An XML or JSON document as records: if its elements or lists name their subject, and name their times differently or
 * are nested. `null` if the text is not a document, or is one list of records that can be read line by line.
 */
export function recordsOfDocument(
  text: string,
): { readonly lines: string[]; readonly times: readonly string[] } | null {
  const root = documentTree(text);
  if (root === null) return null;
  const nodes = nodesOf(root);
  const fields = timeFields(nodes);
  const timesOf = (node: DocumentNode): Map<string, string> =>
    new Map([...node.scalars, ...node.texts].filter(([key, value]) => fields.has(key) && isTime(value)));
  const common = firstFields(spread(nodes, LOOKED_AT).map(timesOf), ALL);
  const times = [...common, ...timesOfSamples(nodes, new Set(common))];
  const isJson = /^\s*[{[]/.test(text);
  // Rows of a JSON table with such dates are lines with a stamp, and say more as sentences than as records.
  const values = isJson ? nodes.flatMap((node) => [...timesOf(node).values()]) : [];
  if (values.length > 0 && values.every((value) => MODIFIED_JULIAN.test(value))) return null;
  const chosen = new Set(times);
  const records = nodes.filter((node) => isRecord(node, chosen));
  const lists = [...groupBy(records, ({ name }) => name).values()].sort((a, b) => b.length - a.length);
  const isMost = (lists[0]?.length ?? 0) > MOST * records.length;
  // One list with nearly everything is read line by line, unless it holds samples next to other records.
  const telling = isMost ? lists.slice(isOfNumbers(lists[0] ?? [], chosen) ? 1 : 0).flat() : records;
  const worded = lists.filter((list) => !isOfNumbers(list, chosen)).flat();
  const isTabled = namesOnce(text, times, worded.length, records.length) || (isJson && areListed(text, worded));
  if (isMost && telling.length === records.length && !isTabled) return null;
  const names = new Set(telling.map(({ name }) => name));
  const nested = telling.filter((node) => node.children.some((child) => holdsTime(child, chosen))).length;
  // The objects of a list have no name of their own: the name of the list is their subject.
  const isNamed = nested > 0 || isJson;
  const ownTimes = common.filter((time) => worded.some(({ scalars, texts }) => scalars.has(time) || texts.has(time)));
  const isNight = ownTimes.length > 1 ? names.size > 1 : isNamed && names.size >= MIN_NAMES;
  if (telling.length < MIN_RECORDS || !(isNight || isTabled)) return null;
  return { lines: documentRecords(root, chosen), times };
}

/** Minimum fraction of records with the name next to the time; a table names its columns once. */
const NAMED = 0.5;

/**
 * Whether a document names its columns once: its lines hold values without names.
 *
 * @param worded records that contain words
 * @param all including those of numbers only, since samples have their own table
 */
function namesOnce(text: string, times: readonly string[], worded: number, all: number): boolean {
  const isJson = /^\s*[{[]/.test(text);
  const named = times.flatMap((time) => {
    const name = escaped(time);
    return text.match(new RegExp(isJson ? `"${name}"\\s*:` : `<${name}[\\s/>]|\\s${name}\\s*=`, 'gu')) ?? [];
  });
  return named.length < NAMED * worded || (isJson && all - named.length >= MIN_ROWS);
}

/** Whether words of records are elsewhere in a JSON document, their numbers in the records themselves. */
function areListed(text: string, records: readonly DocumentNode[]): boolean {
  const worded = new Set(
    spread(records, TRIED).flatMap(({ scalars }) =>
      [...scalars].flatMap(([key, value]) => (/\p{L}{2}/u.test(value) ? key : [])),
    ),
  );
  return [...worded].some((key) => {
    const [, first] = new RegExp(`"${escaped(key)}"\\s*:\\s*(["\\d])`, 'u').exec(text) ?? [];
    return first !== undefined && first !== '"';
  });
}

/** Minimum number of rows of a list of guiding samples. */
const MIN_ROWS = 20;

/** The fields with the reference instants of samples, which may occur once in the document. */
function timesOfSamples(nodes: readonly DocumentNode[], chosen: ReadonlySet<string>): string[] {
  const holders = nodes.filter(
    (node) =>
      !isRecord(node, chosen) && node.children.length >= MIN_ROWS && node.children.filter(isRow).length >= MIN_ROWS,
  );
  return [...new Set(holders.flatMap(({ scalars }) => [...scalars].find(([, value]) => isTime(value))?.[0] ?? []))];
}

/** Whether elements contain only a time and numbers, like samples. */
function isOfNumbers(nodes: readonly DocumentNode[], times: ReadonlySet<string>): boolean {
  return spread(nodes, TRIED).every(
    ({ scalars, texts, children }) =>
      children.length === 0 &&
      [...scalars, ...texts].every(([key, value]) => times.has(key) || Number.isFinite(Number(value))),
  );
}

/** All nodes except list rows inside an element with its own time: those are its samples. */
function nodesOf(root: DocumentNode): DocumentNode[] {
  const nodes: DocumentNode[] = [];
  const waiting = root.children.map((node) => ({ node, isTimed: false }));
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const { node } = next;
    if (next.isTimed && isRow(node)) continue;
    nodes.push(node);
    const isTimed = next.isTimed || (node.children.length > 0 && [...node.scalars.values()].some(isTime));
    for (const child of node.children) waiting.push({ node: child, isTimed });
  }
  return nodes;
}

function timeFields(nodes: readonly DocumentNode[]): ReadonlySet<string> {
  const counts = new Map<string, { all: number; times: number }>();
  for (const { scalars, texts } of nodes) {
    for (const [key, value] of [...scalars, ...texts]) {
      const one = counts.get(key) ?? { all: 0, times: 0 };
      counts.set(key, one);
      if (one.all >= TRIED) continue;
      one.all++;
      if (isTime(value)) one.times++;
    }
  }
  return new Set(
    [...counts].filter(([, { all, times }]) => times >= MIN_TIMES && times >= MOSTLY * all).map(([key]) => key),
  );
}

function holdsTime(node: DocumentNode, times: ReadonlySet<string>): boolean {
  return isRecord(node, times) || node.children.some((child) => holdsTime(child, times));
}
