import type { EventName } from '../../../../src/model/index.js';

/** What a log may say about an event: `{…}` stands for a fact, several wordings mean the same. */
export type Phrases = Readonly<Partial<Record<EventName | 'chatter', readonly string[]>>>;

/** The wordings of one language, and its words for logs that are kept in fields. */
export interface Language {
  readonly decimalComma: boolean;
  readonly phrases: Phrases;
  /** The subject of each span, and what becomes of it, as fields name them. */
  readonly subjects: Readonly<Record<Subject, string>>;
  readonly phases: Readonly<Record<Phase, string>>;
  /** Names of fields: seconds, filter, target, file, pixels, position, temperature, wanted, duration, device, action, phase. */
  readonly fields: readonly string[];
  /** A line that states what relative times count from, and one that states the date of the evening. */
  readonly base: readonly string[];
  readonly evening: readonly string[];
}

/** What a log may be about. */
export const SUBJECTS = [
  'exposure',
  'dither',
  'settling',
  'focus',
  'filter',
  'slew',
  'centre',
  'flip',
  'guiding',
  'star',
  'hold',
  'frame',
  'cooler',
] as const;
export type Subject = (typeof SUBJECTS)[number];

/** What may become of it. */
export const PHASES = [
  'begin',
  'end',
  'fail',
  'abort',
  'ready',
  'pause',
  'resume',
  'lost',
  'found',
  'saved',
  'report',
] as const;
export type Phase = (typeof PHASES)[number];

const list = <T extends string>(keys: readonly T[], words: string): Record<T, string> => {
  const all = words.split(' ');
  return Object.fromEntries(keys.map((key, i) => [key, (all[i] ?? key).replaceAll('_', ' ')])) as Record<T, string>;
};

/** A language from its words in the order of `SUBJECTS` and `PHASES`. */
export function language(
  decimalComma: boolean,
  subjects: string,
  phases: string,
  fields: string,
  heads: { base: readonly string[]; evening: readonly string[] },
  phrases: Phrases,
): Language {
  return {
    decimalComma,
    phrases,
    subjects: list(SUBJECTS, subjects),
    phases: list(PHASES, phases),
    fields: fields.split(' '),
    ...heads,
  };
}
