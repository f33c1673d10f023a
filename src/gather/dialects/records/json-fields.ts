import { MAX_DEPTH, MAX_FIELDS, WHOLE_LIST } from './limits.js';

/** Longest list whose elements are all fields; of longer ones, such as samples, only the first. */
const LONG_LIST = 20;
const KEPT_OF_LIST = 3;

/**
 * The fields of the first JSON object in a text; text before and after it is ignored. Those of a text that is an array
 * are named by position, from 0.
 */
export function jsonFields(text: string): Map<string, string> | null {
  const value = jsonObject(text);
  if (value === null) return null;
  const fields = new Map<string, string>();
  addJson(fields, '', value, 0);
  return fields;
}

/** The array that a text is, or the first JSON object in it; `null` if there is none. */
export function jsonObject(text: string): unknown {
  const array = jsonArray(text);
  if (array !== null) return array;
  const open = text.indexOf('{');
  const close = open < 0 ? -1 : objectEnd(text, open);
  if (close < 0) return null;
  try {
    return JSON.parse(text.slice(open, close + 1));
  } catch {
    return null;
  }
}

/** The array of several elements that makes up a whole text; `null` for other texts. */
function jsonArray(text: string): unknown {
  if (!/^\s*\[/.test(text) || !/\]\s*$/.test(text)) return null;
  try {
    const value: unknown = JSON.parse(text);
    return Array.isArray(value) && value.length > 1 ? value : null;
  } catch {
    return null;
  }
}

function addJson(fields: Map<string, string>, path: string, value: unknown, depth: number): void {
  if (fields.size >= MAX_FIELDS || value === null || value === undefined) return;
  if (typeof value === 'object') {
    if (depth >= MAX_DEPTH) return;
    const entries = Object.entries(value);
    const isLong = Array.isArray(value) && entries.length > LONG_LIST;
    for (const [key, inner] of isLong ? entries.slice(0, KEPT_OF_LIST) : entries)
      if (!key.endsWith(WHOLE_LIST)) addJson(fields, path === '' ? key : `${path}.${key}`, inner, depth + 1);
    return;
  }
  if (path !== '') fields.set(path, String(value));
}

/** The closing brace of the object whose brace opens at `open`; −1 when there is none. */
function objectEnd(text: string, open: number): number {
  let depth = 0;
  let inString = false;
  for (let i = open; i < text.length; i++) {
    const char = text[i];
    if (inString) {
      if (char === '\\') i++;
      else if (char === '"') inString = false;
    } else if (char === '"') inString = true;
    else if (char === '{') depth++;
    else if (char === '}' && --depth === 0) return i;
  }
  return -1;
}
