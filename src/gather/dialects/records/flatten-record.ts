/** How a log writes its records: JSON objects, `key=value` pairs, or tags with attributes. */
export const RECORD_FORMS = ['json', 'pairs', 'tags'] as const;
/** One of the forms. */
export type RecordForm = (typeof RECORD_FORMS)[number];

/** Nesting and fields beyond these are no log record. */
const MAX_DEPTH = 12;
const MAX_FIELDS = 200;

/**
 * The fields of a record by their paths (`what.action`; positions in lists count from 0), values as text; fields
 * without a value are left out. Takes time linear in the text.
 *
 * `pairs`: what stands outside the pairs is the field `text`. `tags`: the first tag's name is the field `tag`, its
 * attributes stand under their own names, the name of the first inner tag with attributes
 * is the field `inner` and stands so in the paths of its own fields, and other inner tags give `name` for their text
 * and `name.attribute`.
 *
 * @returns `null` when the text is no such record
 */
export function flattenRecord(form: RecordForm, text: string): Map<string, string> | null {
  const fields = form === 'json' ? jsonFields(text) : form === 'pairs' ? pairFields(text) : tagFields(text);
  return fields === null || fields.size === 0 ? null : fields;
}

function jsonFields(text: string): Map<string, string> | null {
  const open = text.indexOf('{');
  const close = text.lastIndexOf('}');
  if (open < 0 || close < open) return null;
  let value: unknown;
  try {
    value = JSON.parse(text.slice(open, close + 1));
  } catch {
    return null;
  }
  const fields = new Map<string, string>();
  addJson(fields, '', value, 0);
  return fields;
}

function addJson(fields: Map<string, string>, path: string, value: unknown, depth: number): void {
  if (fields.size >= MAX_FIELDS || value === null || value === undefined) return;
  if (typeof value === 'object') {
    if (depth >= MAX_DEPTH) return;
    for (const [key, inner] of Object.entries(value))
      addJson(fields, path === '' ? key : `${path}.${key}`, inner, depth + 1);
    return;
  }
  if (path !== '') fields.set(path, String(value));
}

const PAIR = /([\p{L}_][\p{L}\d_.-]*)\s?=\s?(?:"([^"]*)"|'([^']*)'|([^\s;,|]+(?:,\d[^\s;,|]*)?))/gu;

function pairFields(text: string): Map<string, string> | null {
  const fields = new Map<string, string>();
  let rest = '';
  let from = 0;
  for (const match of text.matchAll(PAIR)) {
    if (fields.size >= MAX_FIELDS) break;
    const [whole, key = '', double, single, bare] = match;
    rest += ` ${text.slice(from, match.index)}`;
    from = match.index + whole.length;
    const value = double ?? single ?? bare ?? '';
    if (value !== '' && !fields.has(key)) fields.set(key, value);
  }
  if (fields.size === 0) return null;
  const words = `${rest} ${text.slice(from)}`.replace(/[\s;,|]+/g, ' ').trim();
  if (words !== '' && !fields.has('text')) fields.set('text', words);
  return fields;
}

const TAG_PART = /<(\/?)([\p{L}_][\p{L}\d_.:-]*)((?:[^<>"']|"[^"]*"|'[^']*')*?)(\/?)>|([^<>]+)/gu;
const ATTRIBUTE = /([\p{L}_][\p{L}\d_.:-]*)\s*=\s*(?:"([^"]*)"|'([^']*)')/gu;

function tagFields(text: string): Map<string, string> | null {
  const open = text.indexOf('<');
  if (open < 0) return null;
  const fields = new Map<string, string>();
  const names: string[] = [];
  const put = (path: string, value: string): void => {
    if (path !== '' && value !== '' && fields.size < MAX_FIELDS && !fields.has(path)) fields.set(path, plain(value));
  };
  let root: string | undefined;
  let main: string | undefined;
  for (const [, closing, name = '', attributes = '', empty, inner] of text.slice(open).matchAll(TAG_PART)) {
    if (inner !== undefined) {
      if (root !== undefined) put(pathOf(names, main) || 'text', inner.trim());
      continue;
    }
    if (closing === '/') {
      names.pop();
      if (names.length === 0) break;
      continue;
    }
    if (names.length >= MAX_DEPTH) return fields;
    if (root === undefined) {
      root = name;
      put('tag', name);
    }
    names.push(name);
    if (names.length === 2 && main === undefined && attributes.includes('=')) {
      main = name;
      put('inner', name);
    }
    const path = pathOf(names, main);
    for (const [, key = '', double, single] of attributes.matchAll(ATTRIBUTE))
      put(path === '' ? key : `${path}.${key}`, double ?? single ?? '');
    if (path !== '' && empty === '/' && attributes.trim() === '') put(path, 'true');
    if (empty === '/') {
      names.pop();
      if (names.length === 0) break;
    }
  }
  return root === undefined ? null : fields;
}

/** The path of the innermost open tag; the first inner tag with attributes is called `inner`. */
function pathOf(names: readonly string[], main: string | undefined): string {
  return names
    .slice(1)
    .map((name, i) => (i === 0 && name === main ? 'inner' : name))
    .join('.');
}

const ENTITIES: Readonly<Record<string, string>> = { lt: '<', gt: '>', quot: '"', apos: "'", amp: '&' };

function plain(text: string): string {
  return text.replace(/&(lt|gt|quot|apos|amp);/g, (whole, name: string) => ENTITIES[name] ?? whole);
}
