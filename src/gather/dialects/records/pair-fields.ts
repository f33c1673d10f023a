import { MAX_FIELDS } from './limits.js';

const PAIR = /([\p{L}_][\p{L}\d_.-]*)\s?=\s?(?:"([^"]*)"|'([^']*)'|([^\s;,|]+(?:,\d[^\s;,|]*)?))/gu;

/** The `key=value` pairs of a text; what stands outside them is the field `text`. */
export function pairFields(text: string): Map<string, string> | null {
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
