import { MAX_DEPTH, MAX_FIELDS } from './limits.js';

const TAG_PART = /<(\/?)([\p{L}_][\p{L}\d_.:-]*)((?:[^<>"']|"[^"]*"|'[^']*')*?)(\/?)>|([^<>]+)/gu;
const ATTRIBUTE = /([\p{L}_][\p{L}\d_.:-]*)\s*=\s*(?:"([^"]*)"|'([^']*)')/gu;

/** The fields of the first element in a text: its attributes, and the inner elements by their paths. */
export function tagFields(text: string): Map<string, string> | null {
  const open = text.indexOf('<');
  if (open < 0) return null;
  const fields = new Map<string, string>();
  const names: string[] = [];
  const put = (path: string, value: string): void => {
    if (path !== '' && value !== '' && fields.size < MAX_FIELDS && !fields.has(path)) fields.set(path, plain(value));
  };
  let root: string | undefined;
  let main: string | undefined;
  /** The first empty inner element: it says what happened if no other has attributes. */
  let bare: string | undefined;
  for (const [, closing, name = '', attributes = '', empty, inner] of text.slice(open).matchAll(TAG_PART)) {
    if (inner !== undefined) {
      if (root !== undefined) put(pathOf(names, main) || 'text', inner.trim());
      continue;
    }
    if (closing === '/') {
      if (root === undefined && attributes.includes('=')) {
        // An end event in a separate tag.
        root = name;
        put('tag', `/${name}`);
        for (const [, key = '', double, single] of attributes.matchAll(ATTRIBUTE)) put(key, double ?? single ?? '');
        break;
      }
      names.pop();
      if (names.length === 0) break;
      continue;
    }
    if (names.length >= MAX_DEPTH) break;
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
    if (path !== '' && empty === '/' && attributes.trim() === '') {
      put(path, 'true');
      if (names.length === 2) bare ??= name;
    }
    if (empty === '/') {
      names.pop();
      if (names.length === 0) break;
    }
  }
  if (main === undefined && bare !== undefined) put('inner', bare);
  return root === undefined ? null : fields;
}

/** The path of the innermost open tag; the first inner tag with attributes is named `inner`. */
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
