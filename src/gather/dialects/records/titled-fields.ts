import { fieldIn } from './block-fields.js';
import { MAX_FIELDS } from './limits.js';

/**
 * The fields of a block under a title: the first line is the field `title`, without brackets and numbers, and its first
 * number the field `number`; the lines below are fields, each a name, a mark and a value, or else the field `text`.
 */
export function titledFields(text: string): Map<string, string> | null {
  const [head = '', ...below] = text.split('\n');
  const title = titleOf(head);
  if (title === '' || below.length === 0) return null;
  const fields = new Map([['title', title]]);
  const number = /\d+/.exec(head)?.[0];
  if (number !== undefined) fields.set('number', number);
  const rest: string[] = [];
  for (const line of below) {
    const field = fieldIn(line);
    if (field !== null && fields.size < MAX_FIELDS && !fields.has(field.name)) fields.set(field.name, field.value);
    else if (line.trim() !== '') rest.push(line.trim());
  }
  if (rest.length > 0 && !fields.has('text')) fields.set('text', rest.join(' '));
  return fields;
}

function titleOf(line: string): string {
  return line
    .slice(0, 200)
    .replace(/[#№]?(?<![\p{L}\d])\d+(?![\p{L}\d])/gu, ' ')
    .replace(/[[\]{}()<>=*#]+/g, ' ')
    .replace(/\s+/g, ' ')
    .replace(/^[\s:.,;-]+|[\s:.,;-]+$/g, '');
}
