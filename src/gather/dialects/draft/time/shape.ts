import { monthNumber } from '../../time/month-names.js';

/** A time as found in a text: where it stands, and the time pattern that reads it. */
export interface FoundStamp {
  readonly start: number;
  readonly end: number;
  /** Placeholders and literals; `{a}`, `{b}` and `{c}` stand for parts of a date whose order is not yet known. */
  readonly pattern: string;
}

/** A form of time or date, and what is made of a text that has it. */
export interface Shape {
  /** Global: whoever searches with it begins by setting `lastIndex`. */
  readonly regExp: RegExp;
  /** The pattern of a match, or `null` when it is none after all. */
  readonly build: (groups: Groups, text: string) => string | null;
  /** Parts of the form: a text without one of them does not have it. */
  readonly parts: readonly Part[];
}

/** A part of several forms, looked for once in a text: most texts have hardly any. */
export class Part {
  private readonly regExp: RegExp;
  private text: string | null = null;
  private isThere = false;

  constructor(source: string) {
    this.regExp = new RegExp(source, 'u');
  }

  isIn(text: string): boolean {
    if (text !== this.text) {
      this.text = text;
      this.isThere = this.regExp.test(text);
    }
    return this.isThere;
  }
}

/** What the groups of a form hold. */
export type Groups = Readonly<Record<string, string | undefined>>;

/** A form by its pattern. @param parts that every text of the form holds */
export function shape(source: string, build: Shape['build'], parts: readonly Part[] = []): Shape {
  return { regExp: new RegExp(source, 'gu'), build, parts };
}

/** Whether a text holds all parts of a form: one that does not need not be searched for it. */
export function mayHave({ parts }: Shape, text: string): boolean {
  for (const part of parts) if (!part.isIn(text)) return false;
  return true;
}

/** A date and what follows it; `null` where the date is none. */
export function joined(date: string | null, rest: string): string | null {
  return date === null ? null : `${date}${rest}`;
}

/** `1st`, `2nd`, `14th`: the ending changes with the day, so any word is taken for it. */
export function ordinal(text: string | undefined): string {
  return (text ?? '').replace(/^(?:st|nd|rd|th|er)(?![a-z])/, '{weekday}');
}

/** Whether a word names a month. */
export function isMonth(name: string | undefined): boolean {
  return name !== undefined && monthNumber(name) > 0;
}

/** The first place in a text that has a form; a place that only looks like it hides no later one. */
export function matched({ regExp, build }: Shape, text: string): FoundStamp | null {
  regExp.lastIndex = 0;
  for (let match = regExp.exec(text); match !== null; match = regExp.exec(text)) {
    const pattern = build(match.groups ?? {}, match[0]);
    if (pattern !== null) return { start: match.index, end: match.index + match[0].length, pattern };
    regExp.lastIndex = match.index + 1;
  }
  return null;
}
