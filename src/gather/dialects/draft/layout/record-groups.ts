import { escaped } from '../escaped.js';
import { flattenRecord, type RecordForm } from '../../records/flatten-record.js';
import { stampsIn } from '../time/stamp-shapes.js';
import type { HeadLine } from '../time/base-lines.js';

/** Multi-line records: their form, and the pattern of the first line of each. */
export interface GroupedRecords {
  readonly form: Extract<RecordForm, 'json' | 'tags' | 'blocks'>;
  readonly start: string;
}

/**
 * Minimum fraction of lines that begin with an element; minimum number of records; a record has more than one field.
 */
const TAG_SHARE = 0.8;
const MIN_RECORDS = 10;
const LOOKED_AT = 3000;
const WHOLE = 0.8;
const ONE_LINE = 0.9;
const MAX_TRIED = 6;
/**
 * Minimum fraction of lines that may belong to an object: settings at the head may be an object above lines of text.
 */
const OBJECT_SHARE = 0.8;
const OF_OBJECT = /^\s*(?:[{}[\],"]|-?\d[\d.eE+-]*\s*[,\]}]*\s*$|(?:true|false|null)[\s,\]}]*$)/;
/** Minimum fraction of lines that do not begin a record: below it, each line is a record. */
const CONTINUED = 0.02;

const OPENING = /^(\s*)<([\p{L}_][\p{L}\d_.:-]*)((?:\s[^<>]*)?)>?/u;
const ATTRIBUTE = /([\p{L}_][\p{L}\d_.:-]*)\s*=\s*(?:"([^"]*)"|'([^']*)')/gu;

/** How multi-line records begin, `null` if the log has none. */
export function groupedRecords(lines: readonly string[]): GroupedRecords | null {
  const sample = lines.slice(0, LOOKED_AT);
  return groupedTags(sample) ?? groupedJson(sample) ?? groupedItems(sample);
}

/** Lines joined to one text per record, with the number of the first line. */
export function joinedBy(lines: readonly HeadLine[], start: string): HeadLine[] {
  const begins = new RegExp(start, 'u');
  const entries: { text: string; number: number }[] = [];
  for (const { text, number } of lines) {
    const last = entries[entries.length - 1];
    if (begins.test(text) || last === undefined) entries.push({ text, number });
    else last.text += `\n${text}`;
  }
  return entries;
}

function groupedTags(lines: readonly string[]): GroupedRecords | null {
  const tagged = lines.filter((line) => /^\s*<[\p{L}_/!?]/u.test(line));
  if (tagged.length < TAG_SHARE * lines.length) return null;
  // Single-line elements may name their times differently.
  if (lines.filter(isElement).length >= ONE_LINE * lines.length) return null;
  const start = startByAttribute(tagged) ?? startByName(tagged);
  if (start === null) return null;
  const begins = new RegExp(start, 'u');
  const continued = lines.filter((line) => !begins.test(line) && !/^\s*<[!?/]/.test(line)).length;
  return continued > CONTINUED * lines.length && isWhole('tags', lines, start) ? { form: 'tags', start } : null;
}

/** Whether a line is an element with its own time that is closed at the end of the line. */
function isElement(line: string): boolean {
  const [, , name = '', attributes = ''] = OPENING.exec(line) ?? [];
  if (!line.trimEnd().endsWith('/>') && !line.trimEnd().endsWith(`</${name}>`)) return false;
  return [...attributes.matchAll(ATTRIBUTE)].some(([, , double, single]) => isTime(double ?? single ?? ''));
}

/** The time attribute begins a record wherever it is. */
function startByAttribute(lines: readonly string[]): string | null {
  const counts = new Map<string, number>();
  for (const line of lines) {
    const [, , , attributes = ''] = OPENING.exec(line) ?? [];
    for (const [, key = '', double, single] of attributes.matchAll(ATTRIBUTE))
      if (isTime(double ?? single ?? '')) counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  const [key, count] = [...counts].sort((a, b) => b[1] - a[1])[0] ?? ['', 0];
  return count >= MIN_RECORDS ? String.raw`^\s*<[\p{L}_][^<>]*\s${escaped(key)}\s*=` : null;
}

function isTime(value: string): boolean {
  return stampsIn(value).some(
    ({ pattern, start, end }) => start === 0 && end === value.length && !pattern.includes('{elapsed'),
  );
}

/** Elements that open on their own line; the outermost repeating ones. */
function startByName(lines: readonly string[]): string | null {
  const names = new Map<string, { count: number; indent: number }>();
  for (const line of lines) {
    const [whole, indent = '', name = ''] = OPENING.exec(line) ?? [];
    if (whole === undefined || line.includes('</') || line.trimEnd().endsWith('/>')) continue;
    const one = names.get(name) ?? { count: 0, indent: indent.length };
    names.set(name, { count: one.count + 1, indent: Math.min(one.indent, indent.length) });
  }
  const often = [...names].filter(([, { count }]) => count >= MIN_RECORDS / 2);
  const outermost = Math.min(...often.map(([, { indent }]) => indent));
  const chosen = often.filter(([, { indent }]) => indent === outermost).map(([name]) => escaped(name));
  return chosen.length === 0 || chosen.length > 60 ? null : String.raw`^\s*<(?:${chosen.join('|')})[\s>]`;
}

/** Objects that begin with the same indentation and key. */
function groupedJson(lines: readonly string[]): GroupedRecords | null {
  if (lines.filter((line) => OF_OBJECT.test(line)).length < OBJECT_SHARE * lines.length) return null;
  const counts = new Map<string, number>();
  for (const line of lines) {
    const match = /^([ \t]*)(\[?)\{\s*(?:("(?:[^"\\]|\\.)*")\s*:|$)/.exec(line);
    if (match === null) continue;
    const [, indent = '', bracket = '', key] = match;
    if (bracket !== '') continue;
    const blanks = `${indent.includes('\t') ? '\\t' : ' '}{${indent.length}}`;
    const start = `^${indent === '' ? '' : blanks}\\{\\s*${key === undefined ? '$' : escaped(key)}`;
    counts.set(start, (counts.get(start) ?? 0) + 1);
  }
  const tried = [...counts].filter(([, count]) => count >= MIN_RECORDS).sort((a, b) => b[1] - a[1]);
  const start = tried.slice(0, MAX_TRIED).find(([one]) => isWhole('json', lines, one))?.[0];
  if (start === undefined) return null;
  const begins = new RegExp(start, 'u');
  const continued = lines.filter((line) => !begins.test(line)).length;
  return continued > CONTINUED * lines.length ? { form: 'json', start } : null;
}

/** List items in YAML style: the first field follows a hyphen, all others are below it. */
const ITEM = /^(\s*)- +[\p{L}_][\p{L}\d_ -]*: /u;
const ITEM_FIELD = /^(\s*)[\p{L}_][\p{L}\d_ -]*:(?: |$)/u;
const ITEM_START = String.raw`^\s*- +[\p{L}_]`;

function groupedItems(lines: readonly string[]): GroupedRecords | null {
  const first = lines.findIndex((line) => ITEM.test(line));
  const below = lines.slice(first).filter((line) => line.trim() !== '');
  const items = below.filter((line) => ITEM.test(line));
  const fields = below.filter((line) => !ITEM.test(line) && ITEM_FIELD.test(line));
  if (first < 0 || items.length < MIN_RECORDS || items.length + fields.length < ONE_LINE * below.length) return null;
  return fields.length >= items.length && isWhole('blocks', below, ITEM_START)
    ? { form: 'blocks', start: ITEM_START }
    : null;
}

/** Whether most of the texts with this beginning are records with a time among their fields. */
function isWhole(form: RecordForm, lines: readonly string[], start: string): boolean {
  const begins = new RegExp(start, 'u');
  const entries = joinedBy(
    lines.map((text, i) => ({ text, number: i + 1 })),
    start,
  ).filter(({ text }) => begins.test(text.split('\n')[0] ?? ''));
  const whole = entries.filter(({ text }) => {
    const fields = flattenRecord(form, text);
    return fields !== null && fields.size > 1 && [...fields.values()].some((value) => stampsIn(value).length > 0);
  });
  return entries.length >= MIN_RECORDS && whole.length >= WHOLE * entries.length;
}
