import { MAX_FIELDS } from './limits.js';

/** Marks of a list or a tree before a field. */
const MARKS = /^[\s├└│┌┬─╰╭|*•·>+\u2022-]*(?=\p{L})/u;
/**
 * A name of up to four words, leaders or another mark (`·…`, `：＝→`), and the value. Code points as numbers, since one
 * non-Latin-1 character in a raw string makes V8 store the whole bundle as two-byte characters.
 */
const LETTER = String.raw`[\p{L}\p{M}\d_.'\u2019\u00b0()/#-]`;
const LEAD = String.raw`\s*(?:[.\u00b7\u2026_]{2,}|[:=\uff1a\uff1d\u2192]|->|=>|\t|\s{2,})[\s.\u00b7\u2026_]*`;
const FIELD = new RegExp(String.raw`^(\p{L}${LETTER}*(?: ${LETTER}+){0,3}?)${LEAD}(\S.*)$`, 'u');

/** In a column of values the longest name is followed by one blank and a number. */
const NUMBER_FIELD = /^(\p{L}[\p{L}\p{M}\d_-]*) ([-+\u2212]?\d.*)$/u;

/**
 * The fields of a block of lines, each `name ..... value`, `name: value` or `name = value`; other lines are the field
 * `text`.
 */
export function blockFields(text: string): Map<string, string> | null {
  const fields = new Map<string, string>();
  const rest: string[] = [];
  for (const line of text.split('\n').flatMap(partsOf)) {
    const field = fieldIn(line);
    if (field !== null && fields.size < MAX_FIELDS && !fields.has(field.name)) fields.set(field.name, field.value);
    else if (line.trim() !== '') rest.push(line.trim());
  }
  if (rest.length > 0 && !fields.has('text')) fields.set('text', rest.join(' '));
  return fields.size === 0 ? null : fields;
}

/** Several fields on one line, `mount: parked; guider: off`: each is delimited by a mark and has its own colon. */
const NEXT = /\s*[;|]\s+(?=\p{L}[\p{L}\p{M}\d_.'\u2019-]*(?: [\p{L}\p{M}\d_.'\u2019-]+)?\s?[:=\uff1a\uff1d]\s)/u;

/** The fields of a block's lines, one each. */
export function partsOf(line: string): string[] {
  const parts = line.slice(0, 2000).split(NEXT);
  return parts.length > 1 && parts.every((part) => /^\P{L}*\p{L}[^:=\uff1a\uff1d]*[:=\uff1a\uff1d]\s/u.test(part))
    ? parts
    : [line];
}

/** The field on a line of a block, `null` when it is not one. */
export function fieldIn(line: string): { readonly name: string; readonly value: string } | null {
  const text = line.slice(0, 2000).replace(MARKS, '');
  const [, name, value] = FIELD.exec(text) ?? NUMBER_FIELD.exec(text) ?? [];
  return name === undefined || value === undefined ? null : { name: name.replace(/[.\s]+$/, ''), value: value.trim() };
}
