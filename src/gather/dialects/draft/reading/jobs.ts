import { isSubject } from '../lexicon/said.js';
import type { Message } from '../kinds/text-kinds.js';
import { escaped } from '../escaped.js';
import { introducedBy } from './job-forms.js';
import { aboutUnmarked, commonStart, isCounting, NEARLY_ALL, statesOfEach, subjectsOf } from './job-texts.js';

/** Minimum number of messages with a number, of different numbers, and of messages per number. */
const HAVE_IT = 0.3;
const MIN_NUMBERS = 8;
const TO_A_NUMBER = 1.5;
/** Minimum fraction of later messages without a subject of their own. */
const LACK = 0.5;
/** Minimum number of different subjects of jobs, by their first words. */
const MIN_SUBJECTS = 3;
/** Maximum fraction of later messages that begin like the first ones. */
const ALIKE = 0.5;

/** How a log's messages name its jobs. */
export interface JobsDraft {
  /** Captures the number and the subject in the message that introduces a job. */
  readonly begin: string;
  /** Captures the number in later messages. */
  readonly later: string;
  /** The first message only queues the job: another reports that it begins. */
  readonly isOrder: boolean;
  /** A job has one other message, which gives its result. */
  readonly isResult: boolean;
  /** Patterns of messages that only announce a job before it is introduced. */
  readonly announced: readonly string[];
}

interface Numbered {
  readonly number: string;
  readonly rest: string;
  readonly index: number;
}

/** Possible prefixes of job numbers, most common first. */
const MOST_FRONTS = 8;
/** A word or two, possibly with a mark, and a number: `job 17`, `Auftrag 003`, `#12`, `done J17`, `j 17`. */
const NUMBER =
  /^(\p{L}[.#:-]?\s?|[^\d]{0,30}?(?:\p{L}{2,20}\.?\s?(?:[#№=:-]|n[r°º]?\.?)?\s?|#|(?<=\s)\p{Lu}[-.]?))(\d{1,6})(?![\d.,:/-]\d|\p{L}|%)/u;
/** The number before its word: `17. step`, `17) task`. */
const ORDINAL = /^(\d{1,6})([.):]?\s?\p{L}{2,20})(?![\p{L}\d])/u;
/** The number alone in brackets: `[17]`, `(0017)`. */
const BRACKETED = /^([[(<])(\d{1,6})([\])>])(?=\s)/u;
/** A stamp between the number and the message. */
const STAMP = /^\s*[[(]?[-+]?\d{1,2}[:.]\d{2}(?:[:.]\d{2}(?:[.,]\d+)?)?[\])]?(?=\s)/;
const STAMP_PATTERN = String.raw`\s*[[(]?[-+\d:.,]+[\])]?`;

/**
 * The numbered jobs of a log whose later messages refer to the subject by number only: `job 17 begins: focus`, then
 * `job 17 is done`. Later messages with words of their own, `step 17  heron: exposes`, then `to step 17 closed`, may
 * name the subject and omit the rest. `null` if it has none.
 */
export function jobsIn(messages: readonly Message[]): JobsDraft | null {
  const byName = new Map<string, { readonly pattern: string; readonly prefix: string; readonly all: Numbered[] }>();
  for (const [index, { text }] of messages.entries()) {
    const named = numberIn(text);
    if (named === null) continue;
    const { prefix, number, suffix } = named;
    const pattern = `^${escaped(prefix)}(?<job>\\d+)${escaped(suffix)}`;
    const own = byName.get(pattern) ?? { pattern, prefix, all: [] };
    byName.set(pattern, own);
    own.all.push({ number, rest: text.slice(prefix.length + number.length + suffix.length), index });
  }
  const named = [...byName.values()].sort((a, b) => b.all.length - a.all.length);
  const fronts = named.slice(0, MOST_FRONTS).map(({ pattern, prefix, all }): Front => {
    // `GO Q17` and `CUT Q17`, or `go 17` and `cut 17`.
    const likeness = /\s\p{L}+\W*$/u.test(prefix) ? lastWord(prefix) : prefix.replace(/\p{L}+/u, 'a');
    return { pattern, likeness, all };
  });
  const [best] = fronts;
  if (best === undefined) return null;
  return backTo(messages, fronts) ?? sameWords(messages, best) ?? introduced(messages, best);
}

/** The number of a message, and the text around it; `null` if it has none. */
function numberIn(text: string): { readonly prefix: string; readonly number: string; readonly suffix: string } | null {
  const [, prefix, number] = NUMBER.exec(text) ?? [];
  if (prefix !== undefined && number !== undefined) return { prefix, number, suffix: '' };
  const [, opens, bracketed, closes] = BRACKETED.exec(text) ?? [];
  if (opens !== undefined && bracketed !== undefined) return { prefix: opens, number: bracketed, suffix: closes ?? '' };
  const [, ordinal, suffix] = ORDINAL.exec(text) ?? [];
  return ordinal === undefined || suffix === undefined ? null : { prefix: '', number: ordinal, suffix };
}

/** End of a number or word; in RE2 syntax words are ASCII only. */
function edgeOf(pattern: string): string {
  return /(?:[a-z]|(?<!\\)\))$/i.test(pattern) ? '\\b' : '';
}

/** The beginnings of messages that name a number, as a pattern up to and including the number. */
interface Front {
  readonly pattern: string;
  /** The common part of prefixes of the same sort of number. */
  readonly likeness: string;
  readonly all: readonly Numbered[];
}

/** Words directly after the number that distinguish its messages, `17 go: focus` and `17 done`. */
const MOST_WORDS = 8;

/** Messages with a leading number, by the next word; empty if the number is one of many. */
function byWordBehind({ pattern, all }: Front): readonly Front[] {
  const groups = new Map<string, Numbered[]>();
  for (const { number, rest, index } of all) {
    const [whole = '', word = ''] = /^[^\p{L}\d]{0,4}(\p{L}+)/u.exec(rest) ?? [];
    groups.set(word, [...(groups.get(word) ?? []), { number, rest: rest.slice(whole.length), index }]);
  }
  if (groups.size > MOST_WORDS) return [];
  return [...groups].map(([word, own]) => ({
    pattern: `${pattern}\\W{0,4}${escaped(word)}`,
    likeness: '',
    all: own,
  }));
}

/** Minimum fraction of jobs whose later messages have the same words before the number as the first. */
function sameWords(messages: readonly Message[], best: Front): JobsDraft | null {
  const { pattern: before, all } = best;
  if (all.length < HAVE_IT * messages.length) return null;
  const jobs = new Map<string, string[]>();
  for (const { number, rest } of all) jobs.set(number, [...(jobs.get(number) ?? []), rest]);
  if (jobs.size < MIN_NUMBERS || all.length < TO_A_NUMBER * jobs.size || !isCounting([...jobs.keys()])) return null;
  const firsts = [...jobs.values()].map(([first = '']) => first);
  const same = commonStart(firsts);
  const abouts = firsts.map((first) => first.slice(same.length).trim());
  const later = [...jobs.values()].flatMap((own) => own.slice(1));
  const lacking = later.filter((rest) => !isSubject(rest)).length;
  // The subject of most jobs may be repeated in full, and omitted for others.
  const silent = [...jobs.values()].flatMap(([, ...own], i) =>
    own.length > 0 && !own.some(isSubject) ? [abouts[i] ?? ''] : [],
  );
  if (subjectsOf(abouts) < MIN_SUBJECTS) return null;
  if (lacking < LACK * later.length && subjectsOf(silent) < MIN_SUBJECTS) return null;
  // If first messages have no words in common, the word after the number distinguishes them.
  const apart = same.trim() === '' ? backTo(messages, byWordBehind(best)) : null;
  if (apart !== null) return apart;
  // A later message that begins like the first would introduce the number again, unless a mark distinguishes it.
  const alike = later.filter((rest) => rest.startsWith(same)).length;
  const isAlike = alike >= ALIKE * later.length;
  const about = isAlike ? aboutUnmarked(firsts, later, same) : `${escaped(same)}(?<about>.+)$`;
  if (about === null) return null;
  return {
    begin: `${before}${about}`,
    later: `${before}${edgeOf(before)}`,
    isOrder: statesOfEach([...jobs.values()]) > 1,
    isResult: isAlike && [...jobs.values()].filter((own) => own.length <= 2).length >= NEARLY_ALL * jobs.size,
    announced: [],
  };
}

/** Jobs whose numbers begin anew, or that report of themselves before they end: their introductions have a form. */
function introduced(messages: readonly Message[], { pattern, all }: Front): JobsDraft | null {
  const form = all.length < HAVE_IT * messages.length ? null : introducedBy(all);
  return form === null
    ? null
    : {
        begin: `${pattern}${edgeOf(pattern)}${form}`,
        later: `${pattern}${edgeOf(pattern)}`,
        isOrder: false,
        isResult: false,
        announced: [],
      };
}

/**
 * Jobs that later messages refer to in words of their own (`done 17`, `cut 17`): those with new numbers introduce them.
 * A message that names a number before that only announces it.
 */
function backTo(messages: readonly Message[], fronts: readonly Front[]): JobsDraft | null {
  const found = fronts.flatMap((first) => {
    const isLater = (one: Front, i: number): boolean =>
      one !== first && (i < 2 || one.likeness === first.likeness) && goesBack(one, first);
    const isNewEach = new Set(first.all.map(({ number }) => number)).size >= NEARLY_ALL * first.all.length;
    const later = isNewEach ? fronts.filter(isLater) : [];
    return later.length === 0 ? [] : [{ first, later, count: countOf([first, ...later]) }];
  });
  for (const { first, later, count } of found.sort((a, b) => b.count - a.count)) {
    const numbers = new Set(first.all.map(({ number }) => number));
    if (count < HAVE_IT * messages.length || numbers.size < MIN_NUMBERS || !isCounting([...numbers])) continue;
    if (countOf(later) < HAVE_IT * numbers.size) continue;
    const stamped = [first, ...later].every(({ all }) => all.every(({ rest }) => STAMP.test(rest)));
    const abouts = first.all.map(({ rest }) => (stamped ? rest.replace(STAMP, '') : rest).trimStart());
    const same = commonStart(abouts);
    if (subjectsOf(abouts.map((text) => text.slice(same.length))) < MIN_SUBJECTS) continue;
    return {
      begin: `${first.pattern}${stamped ? `${STAMP_PATTERN}\\b` : edgeOf(first.pattern)}\\s*${escaped(same)}(?<about>.+)$`,
      later: anyOf(later),
      isOrder: false,
      isResult: false,
      announced: fronts
        .filter((one) => one.likeness === first.likeness && goesBefore(one, first))
        .map(({ pattern }) => `${pattern}${edgeOf(pattern)}`),
    };
  }
  return null;
}

/** The alternatives of prefixes as one pattern that captures the number once: they differ before or after it. */
function anyOf(fronts: readonly Front[]): string {
  const halves = fronts.map(({ pattern }) => pattern.split('(?<job>\\d+)').map((half) => half.replace(/^\^/, '')));
  const either = (side: 0 | 1): string => {
    const own = [...new Set(halves.map((half) => half[side] ?? ''))];
    return own.length === 1 ? (own[0] ?? '') : `(?:${own.join('|')})`;
  };
  const pattern = `^${either(0)}(?<job>\\d+)${either(1)}`;
  return `${pattern}${edgeOf(pattern)}`;
}

/** The text directly before the number: `GO Q17` and `CUT Q17` refer to the same job. */
function lastWord(prefix: string): string {
  return /[^\s\p{L}]*\p{L}*[^\p{L}]*$/u.exec(prefix)?.[0].toLowerCase() ?? '';
}

function countOf(fronts: readonly Front[]): number {
  return fronts.reduce((sum, { all }) => sum + all.length, 0);
}

/** Whether messages name numbers that others have already introduced. */
function goesBack(one: Front, first: Front): boolean {
  return lagsBehind(one, first).filter((lag) => lag > 0).length >= NEARLY_ALL * one.all.length;
}

/** Whether messages name numbers that others introduce later. */
function goesBefore(one: Front, first: Front): boolean {
  return lagsBehind(one, first).filter((lag) => lag < 0).length >= NEARLY_ALL * one.all.length;
}

/** How many messages each comes after the one that introduces its number. */
function lagsBehind({ all }: Front, first: Front): number[] {
  const brought = new Map(first.all.map(({ number, index }) => [number, index]));
  return all.map(({ number, index }) => index - (brought.get(number) ?? NaN));
}
