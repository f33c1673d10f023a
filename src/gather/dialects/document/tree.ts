import { withTables } from './json-tables.js';
import { withListedNames } from './listed-names.js';
import { nameCells } from './named-cells.js';
import { newNode, type DocumentNode } from './node.js';

/** A log is never nested deeper than this. */
const MAX_DEPTH = 24;
const MAX_NODES = 1_000_000;
/** This many objects under separate keys form a list. */
const MAP_SIZE = 8;

/** The tree of a JSON document, with its tables as lists of objects; `null` if the text is not JSON. */
export function jsonTree(text: string): DocumentNode | null {
  if (!/^\s*[[{]/.test(text)) return null;
  let value: unknown;
  try {
    value = withListedNames(withTables(JSON.parse(text)));
  } catch {
    return null;
  }
  const root = newNode('');
  addValue(root, '', value, 0);
  return root.children.length === 1 && root.scalars.size === 0 ? (root.children[0] ?? null) : root;
}

function addValue(node: DocumentNode, key: string, value: unknown, depth: number): void {
  if (value === null || value === undefined || depth > MAX_DEPTH) return;
  if (Array.isArray(value)) {
    const items: readonly unknown[] = value;
    if (items.every((item) => typeof item !== 'object' || item === null)) {
      // A list row's values are identified by position.
      if (node.name === key && depth > 0) items.forEach((item, i) => addValue(node, String(i), item, depth));
      else node.scalars.set(key, items.join(' '));
      return;
    }
    for (const item of items) {
      const child = newNode(key);
      if (Array.isArray(item)) addValue(child, key, item, depth + 1);
      else addValue(child, '', item, depth + 1);
      node.children.push(child);
    }
    return;
  }
  if (typeof value !== 'object') {
    node.scalars.set(key, String(value));
    return;
  }
  if (key !== '') {
    const child = newNode(key);
    addValue(child, '', value, depth + 1);
    node.children.push(child);
    return;
  }
  const entries: (readonly [string, unknown])[] = Object.entries(value);
  const isMap =
    entries.length >= MAP_SIZE &&
    entries.every(([, one]) => typeof one === 'object' && one !== null && !Array.isArray(one));
  for (const [name, one] of entries) {
    if (!isMap) {
      addValue(node, name, one, depth);
      continue;
    }
    const child = newNode(node.name);
    child.scalars.set('key', name);
    addValue(child, '', one, depth + 1);
    node.children.push(child);
  }
}

const PART = /<(\/?)([\p{L}_][\p{L}\d_.:-]*)((?:[^<>"']|"[^"]*"|'[^']*')*?)(\/?)>|([^<]+)|</gu;
const ATTRIBUTE = /([\p{L}_][\p{L}\d_.:-]*)\s*=\s*(?:"([^"]*)"|'([^']*)')/gu;
const NO_ELEMENT = /<\?[^>]*\?>|<!--[\s\S]*?-->|<!\[CDATA\[([\s\S]*?)\]\]>|<![^>]*>/g;
const COMMENT = /<!--([\s\S]*?)-->/g;

/** A closing tag with attributes on a line of its own marks an end in a log; it is not XML. */
const CLOSED_WITH_MORE = /<\/[\p{L}_][\p{L}\d_.:-]*\s+[\p{L}_][\p{L}\d_.:-]*\s*=/u;

/** The tree of an XML document; `null` if the text is not XML. Elements still open at the end are closed. */
export function xmlTree(text: string): DocumentNode | null {
  if (!/^\s*</.test(text) || CLOSED_WITH_MORE.test(text)) return null;
  const root = newNode('');
  const open = [root];
  let nodes = 0;
  const plainText = text.replace(NO_ELEMENT, (_, data: string | undefined) => data?.replace(/</g, '&lt;') ?? '');
  for (const [, closing, name = '', attributes = '', empty, inner] of plainText.matchAll(PART)) {
    const last = open[open.length - 1] ?? root;
    if (inner !== undefined) {
      const said = inner.trim();
      if (said !== '' && !last.scalars.has('text')) last.scalars.set('text', plain(said));
      continue;
    }
    if (name === '') continue;
    if (closing === '/') {
      const at = open.findLastIndex((one) => one.name === name);
      if (at > 0) for (const one of open.splice(at).reverse()) closed(one, open[at - 1] ?? root);
      continue;
    }
    if (open.length > MAX_DEPTH || ++nodes > MAX_NODES) return null;
    const node = newNode(name);
    for (const [, key = '', double, single] of attributes.matchAll(ATTRIBUTE))
      node.scalars.set(key, plain(double ?? single ?? ''));
    last.children.push(node);
    if (empty !== '/') open.push(node);
  }
  const [first] = root.children;
  if (first === undefined || root.children.length > 1 || first.children.length === 0) return null;
  nameCells(first);
  const comments = [...text.matchAll(COMMENT)].map(([, said = '']) => said.trim());
  if (comments.length > 0) first.scalars.set('comment', comments.slice(0, 3).join(' '));
  return first;
}

/** A text-only element is a value of its parent. */
function closed(node: DocumentNode, parent: DocumentNode): void {
  const text = node.scalars.get('text');
  if (text === undefined || node.scalars.size > 1 || node.texts.size > 0 || node.children.length > 0) return;
  if (parent.texts.has(node.name) || parent.children.filter(({ name }) => name === node.name).length > 1) return;
  parent.texts.set(node.name, text);
  parent.children.splice(parent.children.indexOf(node), 1);
}

const ENTITIES: Readonly<Record<string, string>> = { lt: '<', gt: '>', quot: '"', apos: "'", amp: '&' };

function plain(text: string): string {
  return text.replace(/&(lt|gt|quot|apos|amp);/g, (whole, name: string) => ENTITIES[name] ?? whole);
}
