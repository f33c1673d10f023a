import { groupBy } from '../../../model/index.js';
import { WHOLE_LIST } from '../records/limits.js';
import type { DocumentLines } from '../../lines/document-buffer.js';
import type { DocumentNode } from './node.js';
import { jsonTree, xmlTree } from './tree.js';

/** Elements that contain others are descended into if there are this many of one name. */
const LOOKED_INTO = 8;
/** Fields that a record inherits from the element around it. */
const MAX_CONTEXT = 20;

type Context = Readonly<Record<string, string>>;

/** A larger document is not the log of one night. */
const MAX_BYTES = 64 * 2 ** 20;

/** Turns a document into lines, one per record. @param times fields that hold the times of records */
export function documentLines(times: ReadonlySet<string>): DocumentLines {
  return {
    maxBytes: MAX_BYTES,
    linesOf: (text) => {
      const tree = documentTree(text);
      return tree === null ? null : documentRecords(tree, times);
    },
  };
}

/** The tree of an XML or JSON document; `null` if the text is neither. */
export function documentTree(text: string): DocumentNode | null {
  return xmlTree(text) ?? jsonTree(text);
}

/**
 * The records of a document as lines of JSON, in document order: every element or object with one of the time fields.
 * `tag` is its name, or that of the list around it; `in` holds the name and fields of the enclosing element; children
 * without a time are included by name. Anything outside a record becomes a line without a time.
 */
export function documentRecords(root: DocumentNode, times: ReadonlySet<string>): string[] {
  const lines: string[] = [];
  const timed = new Map<DocumentNode, boolean>();
  const holdsTime = (node: DocumentNode): boolean => {
    const known = timed.get(node);
    if (known !== undefined) return known;
    const holds = isRecord(node, times) || node.children.some(holdsTime);
    timed.set(node, holds);
    return holds;
  };
  const walk = (node: DocumentNode, context: Context | null): void => {
    const inside = node.children.filter((child) => !holdsTime(child));
    const record = isRecord(node, times) && context !== null;
    const own: Record<string, unknown> = {
      tag: node.name,
      ...Object.fromEntries([...node.scalars, ...node.texts].filter(([key]) => context !== null || !times.has(key))),
    };
    if (record) {
      for (const child of inside) addFields(own, child, child.name);
      addLists(own, inside, '');
    }
    if (record && Object.keys(context).length > 0) own.in = context;
    if (record || node.scalars.size + node.texts.size > 0) lines.push(JSON.stringify(own));
    if (!record)
      for (const child of inside) {
        const fields: Record<string, unknown> = { tag: child.name };
        addFields(fields, child, '');
        lines.push(JSON.stringify(fields));
      }
    const around = context === null ? {} : contextOf(node, context, record, times);
    for (const child of node.children) if (holdsTime(child)) walk(child, around);
  };
  walk(root, null);
  return lines;
}

/** Whether a node has one of the fields with a time. */
export function isRecord(node: DocumentNode, times: ReadonlySet<string>): boolean {
  return [...node.scalars.keys(), ...node.texts.keys()].some((key) => times.has(key));
}

/** The fields of a record's children; an element's own text is stored under its name. */
function addFields(fields: Record<string, unknown>, node: DocumentNode, path: string): void {
  const put = (key: string, value: string): void => {
    if (fields[key] === undefined) fields[key] = value;
  };
  if (path !== '' && node.children.length + node.scalars.size + node.texts.size === 0) put(path, 'true');
  for (const [key, value] of [...node.scalars, ...node.texts])
    put(path === '' ? key : key === 'text' ? path : `${path}.${key}`, value);
  for (const child of node.children) addFields(fields, child, path === '' ? child.name : `${path}.${child.name}`);
}

/** Lists of elements without a time, such as guiding samples, are kept whole. */
function addLists(fields: Record<string, unknown>, nodes: readonly DocumentNode[], path: string): void {
  for (const [name, own] of groupBy(nodes, (node) => node.name)) {
    const at = path === '' ? name : `${path}.${name}`;
    const isList = (own.length > 1 || own.some(isRow)) && own.every(({ children }) => children.length === 0);
    if (isList)
      fields[`${at}${WHOLE_LIST}`] = own.map(({ scalars, texts }) => Object.fromEntries([...scalars, ...texts]));
    else for (const node of own.slice(0, LOOKED_INTO)) addLists(fields, node.children, at);
  }
}

/** A nested list: its values have positions instead of names. */
export function isRow({ scalars, children }: DocumentNode): boolean {
  return scalars.size > 1 && children.length === 0 && [...scalars.keys()].every((key) => /^\d+$/.test(key));
}

/** The context of a node's children: the nearest enclosing element is the most specific. */
function contextOf(node: DocumentNode, context: Context, isRecord: boolean, times: ReadonlySet<string>): Context {
  const own = [...node.scalars].filter(([key]) => !times.has(key) && key !== 'text' && key !== 'comment');
  // An element with fields and no time groups records, such as those of a target: its name does not describe them.
  const names: Context = isRecord || own.length === 0 ? { tag: node.name } : {};
  return Object.fromEntries(
    Object.entries({ ...names, ...Object.fromEntries(own), ...without(context, names, own) }).slice(0, MAX_CONTEXT),
  );
}

function without(context: Context, names: Context, own: readonly (readonly [string, string])[]): Context {
  const known = new Set([...Object.keys(names), ...own.map(([key]) => key)]);
  return Object.fromEntries(Object.entries(context).filter(([key]) => !known.has(key)));
}
