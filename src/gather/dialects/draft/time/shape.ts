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

/** Combinations of parts kept: a log has few. */
const MOST_KEPT = 2000;

/** A list of forms, of which a text is searched for those whose parts it contains: most texts contain the same few. */
export class Forms {
  private readonly parts: readonly Part[];
  /** What is left to search for, by the parts that a text contains, one bit each. */
  private readonly left = new Map<number, Forms>();

  /** @param depth number of parts of each form that the text is known to contain */
  constructor(
    private readonly forms: readonly Shape[],
    private readonly depth = 0,
  ) {
    this.parts = [...new Set(forms.flatMap(({ parts }) => parts[depth] ?? []))];
  }

  /** The forms that a text may have, in order. */
  mayBeIn(text: string): readonly Shape[] {
    if (this.parts.length === 0) return this.forms;
    let found = 0;
    let bit = 1;
    for (const part of this.parts) {
      if (part.isIn(text)) found += bit;
      bit *= 2;
    }
    let left = this.left.get(found);
    if (left === undefined) {
      if (this.left.size >= MOST_KEPT) this.left.clear();
      left = this.with(text);
      this.left.set(found, left);
    }
    return left.mayBeIn(text);
  }

  private with(text: string): Forms {
    const { forms, depth } = this;
    return new Forms(
      forms.filter(({ parts }) => parts[depth]?.isIn(text) !== false),
      depth + 1,
    );
  }
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
    // Behind the first character; in the middle of one of two code units the search would step back to it for ever.
    regExp.lastIndex = match.index + ((text.codePointAt(match.index) ?? 0) > 0xff_ff ? 2 : 1);
  }
  return null;
}
