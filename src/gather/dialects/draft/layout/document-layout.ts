import { groupBy } from '../../../../model/index.js';
import { documentRecords, documentTree, isRecord } from '../../document/document-records.js';
import type { DocumentNode } from '../../document/tree.js';
import { spread } from './layout.js';
import { firstFields, isTime } from '../time/first-fields.js';

/** Values of a field that are times, of all. */
const MOSTLY = 0.8;
const MIN_TIMES = 3;
/** What is rare, such as the cooling, may name its times by itself. */
const ALL = 1;
const MIN_RECORDS = 10;
const MOST = 0.9;
/** Different names of records that name their times alike, from which on the names say what they are about. */
const MIN_NAMES = 3;
/** Elements that are looked at for their times. */
const LOOKED_AT = 5000;
/** Values of a field that are tried as times. */
const TRIED = 200;

/**
 * A document, XML or JSON, as records: where its elements or lists say what they are about, and name their times
 * differently or stand in each other. `null` where the text is no document, or one list of records that lines tell.
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
  const times = firstFields(spread(nodes, LOOKED_AT).map(timesOf), ALL);
  const chosen = new Set(times);
  const records = nodes.filter((node) => isRecord(node, chosen));
  const names = new Set(records.map(({ name }) => name));
  const nested = records.filter((node) => node.children.some((child) => holdsTime(child, chosen))).length;
  // One list that holds nearly everything is read by its lines.
  const most = Math.max(...[...groupBy(records, ({ name }) => name).values()].map((own) => own.length));
  if (most > MOST * records.length) return null;
  const isTold = times.length > 1 ? names.size > 1 : nested > 0 && names.size >= MIN_NAMES;
  if (records.length < MIN_RECORDS || !isTold) return null;
  return { lines: documentRecords(root, chosen), times };
}

function nodesOf(root: DocumentNode): DocumentNode[] {
  const nodes: DocumentNode[] = [];
  const waiting = [...root.children];
  for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
    nodes.push(node);
    waiting.push(...node.children);
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
