import { sum } from '../../../../model/index.js';
import { escaped } from '../escaped.js';
import { saysMotion } from '../lexicon/said.js';
import { BY_ONE, NEARLY_ALL, subjectsOf } from './job-texts.js';

/** A message with the number of a job: the text behind the number. */
export interface OfJob {
  readonly number: string;
  readonly rest: string;
}

/** Minimum number of jobs and of messages per job. */
const MIN_JOBS = 8;
const TO_A_JOB = 1.5;
const MIN_SUBJECTS = 3;
/** Fraction of introductions that end in a word that is not known to say that something begins. */
const MOSTLY = 0.8;
const WORDS = /\p{L}{3,}/gu;
/** A call: `expose(heron, Ha, 300 s)`. */
const CALL = String.raw`\p{L}[\p{L}\d_]*\(`;

/**
 * How the messages that introduce jobs differ from later ones of the same number: by a word such as _started_ behind
 * what they are about, or as calls. These numbers count up, and may begin anew where a program was restarted.
 *
 * @returns a pattern of what follows the number, with a group for what the job is about; `null` if nothing tells
 */
export function introducedBy(messages: readonly OfJob[]): string | null {
  const firsts = new Map<string, string>();
  for (const { number, rest } of messages) if (!firsts.has(number)) firsts.set(number, rest);
  if (firsts.size < MIN_JOBS) return null;
  const places = new Map<string, number[]>();
  for (const rest of firsts.values())
    for (const word of new Set(rest.match(WORDS))) places.set(word, [...(places.get(word) ?? []), rest.indexOf(word)]);
  const isLast = (word: string): boolean =>
    [...firsts.values()].filter((rest) => rest.endsWith(word)).length >= MOSTLY * firsts.size;
  // What they are about may have a word in common as well, such as the train: then the one that says what happens.
  const common = [...places]
    .filter(([word, own]) => own.length >= NEARLY_ALL * firsts.size && (saysMotion(word) || isLast(word)))
    .sort((a, b) => Number(saysMotion(b[0])) - Number(saysMotion(a[0])) || sum(b[1]) - sum(a[1]))
    .map(([word]) => word);
  const forms = [
    ...common.map((word) => String.raw`\s*(?<about>\S.*?)\s+${escaped(word)}`),
    String.raw`\s*(?<about>${CALL}.*)$`,
  ];
  return forms.find((form) => introduces(new RegExp(`^${form}`, 'u'), messages, firsts)) ?? null;
}

/** Whether messages of a form introduce nearly all jobs: the number of each is one more than that of the last. */
function introduces(form: RegExp, messages: readonly OfJob[], firsts: ReadonlyMap<string, string>): boolean {
  const own = messages.filter(({ rest }) => form.test(rest));
  const first = [...firsts.values()].filter((rest) => form.test(rest)).length;
  if (first < NEARLY_ALL * firsts.size || messages.length < TO_A_JOB * own.length) return false;
  const numbers = own.map(({ number }) => Number(number));
  const byOne = numbers.filter((value, i) => i > 0 && value === (numbers[i - 1] ?? NaN) + 1).length;
  const again = numbers.filter((value, i) => i > 0 && value === numbers[i - 1]).length;
  const abouts = own.map(({ rest }) => form.exec(rest)?.groups?.about ?? '');
  return byOne >= BY_ONE * (own.length - 1) && again === 0 && subjectsOf(abouts) >= MIN_SUBJECTS;
}
