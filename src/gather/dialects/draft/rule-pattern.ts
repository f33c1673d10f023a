import type { Template } from './template-tree.js';

/**
 * A pattern in RE2 syntax that matches the lines of a template: literal where they agree, a class where they
 * differ. Written so that the native engine may run it wherever possible: each class leaves out the character that follows it.
 *
 * @param runs ends of the runs of tokens that one placeholder stands for, by index of the first
 * @param groups names of groups by index of the first token of a run
 */
export function rulePattern(
  template: Template,
  runs: ReadonlyMap<number, number>,
  groups: ReadonlyMap<number, string>,
  decimalComma: boolean,
): string {
  let pattern = '^';
  for (let i = 0; i < template.tokens.length; i++) {
    if (i > 0) pattern += template.gaps[i] === 'blanks' ? '\\s+' : (template.gaps[i] ?? '');
    const token = template.tokens[i];
    if (typeof token === 'string') {
      pattern += escaped(token);
      continue;
    }
    const last = runs.get(i) ?? i;
    const body = placeholder(template, i, last, decimalComma);
    const name = groups.get(i);
    pattern += name === undefined ? body : `(?<${name}>${body})`;
    i = last;
  }
  return `${pattern}$`;
}

function placeholder(template: Template, first: number, last: number, decimalComma: boolean): string {
  const wildcard = template.wildcards.get(first);
  const leader = leaderIn(wildcard?.values);
  if (leader !== null) return `${escaped(leader)}+`;
  if (wildcard?.numeric === true) return `[${wildcard.signed ? '-+' : ''}\\d${decimalComma ? ',' : '.'}]+`;
  const next = template.tokens[last + 1];
  if (next === undefined) return '.+';
  const values = [...(wildcard?.values ?? [])];
  const hasBlanks = first !== last || values.some((value) => value.includes(' '));
  if (template.gaps[last + 1] !== '') return hasBlanks ? '.+' : '\\S+';
  const mark = next?.slice(0, 1) ?? '';
  if (mark === '' || values.some((value) => value.includes(mark))) return hasBlanks ? '.+' : '\\S+';
  return `[^${/[\\\]^-]/.test(mark) ? `\\${mark}` : mark}]+`;
}

/** The mark that all of the values are runs of, as in a row of dots. */
export function leaderIn(values: ReadonlySet<string> | undefined): string | null {
  const [first] = values ?? [];
  const mark = first?.slice(0, 1);
  if (values === undefined || mark === undefined || first === undefined || first.length < 3 || /[\p{L}\d]/u.test(mark))
    return null;
  return [...values].every((value) => value === mark.repeat(value.length)) ? mark : null;
}

function escaped(text: string): string {
  return text.replace(/[\\^$.*+?()[\]{}|]/g, '\\$&');
}
