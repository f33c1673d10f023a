import { MAX_FIELDS } from './limits.js';

const PAIR = /([\p{L}_][\p{L}\d_.-]*)\s?=\s?(?:"([^"]*)"|'([^']*)'|([^\s;,|]+(?:,\d[^\s;,|]*)?))/gu;

const DIVIDERS = ['|', ';', ','] as const;
const DIVIDED = /^\s*([\p{L}_][\p{L}\d_.-]*)\s*(?:=|:(?=\s|$))\s*(.*?)\s*$/su;
/** A list item in braces: `- {at: 21:04, what: focus}`. */
const BRACED = /^\s*(?:-\s+)?\{(.*)\}\s*$/s;
const QUOTED = /^(["'])(.*)\1$/s;

/**
 * The pairs of a text, `key=value` or, with dividers between them, `key: value | key: value`; text outside them is the
 * field `text`.
 */
export function pairFields(text: string): Map<string, string> | null {
  const { fields, words } = pairsIn(text);
  if (fields.size === 0) return null;
  if (words !== '' && !fields.has('text')) fields.set('text', words);
  return fields;
}

/** The pairs of a text, and the words outside them. */
export function pairsIn(text: string): { readonly fields: Map<string, string>; readonly words: string } {
  const [, inner = text] = BRACED.exec(text) ?? [];
  for (const divider of DIVIDERS) {
    const fields = inner.includes(divider) ? dividedFields(inner.split(divider)) : null;
    if (fields !== null) return { fields, words: '' };
  }
  return loosePairs(text);
}

/** Pairs whose values extend to the next divider, including blanks; `null` if something is not a pair. */
function dividedFields(parts: readonly string[]): Map<string, string> | null {
  if (parts.length > MAX_FIELDS) return null;
  const fields = new Map<string, string>();
  for (const part of parts) {
    const [, key = '', value = ''] = DIVIDED.exec(part) ?? [];
    if (key === '') return null;
    const text = value.replace(QUOTED, '$2');
    if (text !== '' && !fields.has(key)) fields.set(key, text);
  }
  return fields.size === 0 ? null : fields;
}

function loosePairs(text: string): { readonly fields: Map<string, string>; readonly words: string } {
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
  return { fields, words: `${rest} ${text.slice(from)}`.replace(/[\s;,|]+/g, ' ').trim() };
}
