import { monthNumber } from '../../time/month-names.js';

/** A time found in a text: its position, and the time pattern that reads it. */
export interface FoundStamp {
  readonly start: number;
  readonly end: number;
  /** Placeholders and literals; `{a}`, `{b}` and `{c}` stand for parts of a date in undetermined order. */
  readonly pattern: string;
}

/** A form of time or date, and the conversion of a text that has it. */
export interface Shape {
  /** Global: set `lastIndex` before searching. */
  readonly regExp: RegExp;
  /** The pattern of a match, or `null` if it is not one after all. */
  readonly build: (groups: Groups, text: string) => string | null;
  /** Required parts: a text without one of them does not match. */
  readonly parts: readonly Part[];
}

/** A part of several forms, searched for once per text: most texts contain hardly any. */
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

/** The contents of the form's groups. */
export type Groups = Readonly<Record<string, string | undefined>>;

/** A form by its pattern. @param parts contained in every text of the form */
export function shape(source: string, build: Shape['build'], parts: readonly Part[] = []): Shape {
  return { regExp: new RegExp(source, 'gu'), build, parts };
}

/** Whether a text contains all parts of a form: otherwise it need not be searched. */
export function mayHave({ parts }: Shape, text: string): boolean {
  for (const part of parts) if (!part.isIn(text)) return false;
  return true;
}

/** A date and the rest; `null` if it is not a valid date. */
export function joined(date: string | null, rest: string): string | null {
  return date === null ? null : `${date}${rest}`;
}

/** `1st`, `2nd`, `14th`: the ending depends on the day, so any word is accepted. */
export function ordinal(text: string | undefined): string {
  return (text ?? '').replace(/^(?:st|nd|rd|th|er)(?![a-z])/, '{weekday}');
}

/** Whether a word names a month. */
export function isMonth(name: string | undefined): boolean {
  return name !== undefined && monthNumber(name) > 0;
}

/** The first position in a text with a form; a false match does not hide a later one. */
export function matched({ regExp, build }: Shape, text: string): FoundStamp | null {
  regExp.lastIndex = 0;
  for (let match = regExp.exec(text); match !== null; match = regExp.exec(text)) {
    const pattern = build(match.groups ?? {}, match[0]);
    if (pattern !== null) return { start: match.index, end: match.index + match[0].length, pattern };
    regExp.lastIndex = match.index + 1;
  }
  return null;
}
