import { escaped } from './escaped.js';
import { isUsablePattern } from './usable-pattern.js';
import type { Gap } from './tokens.js';
import type { Template } from './template-tree.js';

/**
 * A pattern in RE2 syntax that matches the lines of a template: literal where they agree, a class where they differ.
 * Written so that the native engine may run it wherever possible: each class excludes the character that follows it.
 *
 * @param runs ends of the token runs that one placeholder stands for, by index of the first
 * @param groups names of groups by index of the first token of a run
 */
export function rulePattern(
  template: Template,
  runs: ReadonlyMap<number, number>,
  groups: ReadonlyMap<number, string>,
  decimalComma: boolean,
): string {
  const parts: Part[] = [];
  for (let i = 0; i < template.tokens.length; i++) {
    const gap = i === 0 ? '' : GAPS[template.gaps[i] ?? ''];
    const token = template.tokens[i];
    if (typeof token === 'string' && !groups.has(i)) {
      parts.push({ text: `${gap}${escaped(token)}`, isGroup: false });
      continue;
    }
    const last = runs.get(i) ?? i;
    const body = placeholder(template, i, last, decimalComma);
    const name = groups.get(i);
    parts.push({ text: gap + (name === undefined ? body : `(?<${name}>${body})`), isGroup: name !== undefined });
    i = last;
  }
  return shortened(parts);
}

/** In RE2 syntax `\s` is ASCII only. */
const GAPS: Readonly<Record<Gap, string>> = {
  '': '',
  ' ': ' ',
  blanks: '\\s+',
  line: '\\s+',
  wide: '[\\s\\x{a0}\\x{2000}-\\x{200a}\\x{202f}\\x{3000}]+',
};

/** The pattern for one token, or one run of them. */
interface Part {
  readonly text: string;
  readonly isGroup: boolean;
}

/** A shorter pattern always compiles. */
const SURELY_SHORT = 300;
/** Number of tokens at the beginning of a long message that identify its kind, and before a group that locate it. */
const TELLING = 40;
const AROUND = 4;

/**
 * The parts as one pattern; for a message too long for one, its beginning and the context of its groups, since a draft
 * must not contain a pattern that a dialect cannot use.
 */
function shortened(parts: readonly Part[]): string {
  const whole = `^${joined(parts)}$`;
  if (whole.length <= SURELY_SHORT || isUsablePattern(whole)) return whole;
  for (let telling = TELLING; telling >= 1; telling = Math.floor(telling / 2)) {
    let pattern = '^';
    let upTo = 0;
    parts.forEach((part, i) => {
      const isKept = i < telling || parts.slice(i, i + AROUND).some(({ isGroup }) => isGroup);
      if (!isKept) return;
      pattern += i > upTo ? `(?s:.*?)${part.text}` : part.text;
      upTo = i + 1;
    });
    if (isUsablePattern(pattern)) return pattern;
  }
  return whole;
}

function joined(parts: readonly Part[]): string {
  return parts.map(({ text }) => text).join('');
}

function placeholder(template: Template, first: number, last: number, decimalComma: boolean): string {
  const wildcard = template.wildcards.get(first);
  const leader = leaderIn(wildcard?.values);
  if (leader !== null) return `${escaped(leader)}+`;
  if (wildcard?.numeric === true) {
    const sign = wildcard.typeset ? '-+\u2212' : wildcard.signed ? '-+' : '';
    // `20.43.16` is a time next to numbers with commas.
    const other = decimalComma && [...wildcard.values].some((value) => value.includes('.')) ? '.' : '';
    return `[${sign}\\d${decimalComma ? ',' : '.'}${other}]+`;
  }
  const next = template.tokens[last + 1];
  if (isOfHalfDay(template, first, last)) return TWELVE_HOURS;
  if (next === undefined) return '.+';
  const values = [...(wildcard?.values ?? [])];
  const hasBlanks = first !== last || values.some((value) => value.includes(' '));
  if (template.gaps[last + 1] !== '') return hasBlanks ? '.+' : '\\S+';
  const mark = next?.slice(0, 1) ?? '';
  if (mark === '' || values.some((value) => value.includes(mark))) return hasBlanks ? '.+' : '\\S+';
  return `[^${/[\\\]^-]/.test(mark) ? `\\${mark}` : mark}]+`;
}

/** A class as wide as `.+` would run on to the same words in a later sentence. */
const TWELVE_HOURS = String.raw`\d+:[\d:.,]+\s?[AaPp]\.?[Mm]\.?`;
const OF_HALF_DAY = /^\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d+)?)? ?[ap]\.?m\.?$/i;

/** Whether a placeholder, of one token or of two, stands for times of a twelve-hour clock. */
function isOfHalfDay({ wildcards }: Template, first: number, last: number): boolean {
  const [hours, halves] = [first, last].map((i) => [...(wildcards.get(i)?.values ?? [])]);
  if (hours === undefined || halves === undefined || hours.length === 0 || last > first + 1) return false;
  if (first === last) return hours.every((value) => OF_HALF_DAY.test(value));
  return (
    hours.every((value) => OF_HALF_DAY.test(`${value} am`)) && halves.every((value) => /^[ap]\.?m\.?$/i.test(value))
  );
}

/** The character that all of the values are runs of, as in a row of dots. */
export function leaderIn(values: ReadonlySet<string> | undefined): string | null {
  const [first] = values ?? [];
  const mark = first?.slice(0, 1);
  if (values === undefined || mark === undefined || first === undefined || first.length < 3 || /[\p{L}\d]/u.test(mark))
    return null;
  return [...values].every((value) => value === mark.repeat(value.length)) ? mark : null;
}
