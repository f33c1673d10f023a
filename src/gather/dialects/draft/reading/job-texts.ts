import { increment } from '../../../../model/index.js';
import { isSubject } from '../lexicon/said.js';
import { isFrameFile } from '../kinds/values.js';
import { escaped } from '../escaped.js';

/** Minimum number of messages with the same text before or after the number. */
export const NEARLY_ALL = 0.95;
/** New numbers increase, nearly always by one. */
export const BY_ONE = 0.8;
/** Number of words before the mark of a later message, such as a device name. */
const MOST_BEFORE_MARK = 2;
/** Minimum fraction of jobs with a message of the same words. */
const OF_EACH = 0.6;

/**
 * What follows the number in first messages, as a pattern that excludes later ones: these have a mark as their first,
 * second or third word, `#17 east -> done` after `#17 east focus`. `null` if no mark distinguishes them.
 */
export function aboutUnmarked(firsts: readonly string[], later: readonly string[], same: string): string | null {
  for (let words = 0; words <= MOST_BEFORE_MARK; words++) {
    const before = '\\S+\\s+'.repeat(words);
    const place = new RegExp(`^${before}(.)`, 'u');
    const markOf = (rest: string): string => place.exec(rest.slice(same.length).trimStart())?.[1] ?? '';
    const mark = markOf(later[0] ?? '');
    if (!/^[^\p{L}\p{N}\s]$/u.test(mark)) continue;
    const share = (all: readonly string[]): number => all.filter((rest) => markOf(rest) === mark).length / all.length;
    if (share(later) < NEARLY_ALL || share(firsts) > 1 - NEARLY_ALL) continue;
    return `\\b${escaped(same.trimEnd())}\\s*(?<about>${before}[^\\s${escaped(mark)}].*)$`;
  }
  return null;
}

/** Number of different subjects of jobs. */
export function subjectsOf(abouts: readonly string[]): number {
  return new Set(
    abouts
      .map((about) => about.trim())
      .filter(isSubject)
      .map(firstWords),
  ).size;
}

/** Whether new numbers increase, nearly always by one. */
export function isCounting(numbers: readonly string[]): boolean {
  const values = numbers.map(Number);
  const byOne = values.filter((value, i) => i > 0 && value === (values[i - 1] ?? NaN) + 1).length;
  return byOne >= BY_ONE * (values.length - 1);
}

/** The common prefix of nearly all texts, up to the end of a word. */
export function commonStart(texts: readonly string[]): string {
  const [model = ''] = texts;
  let end = 0;
  for (let length = 1; length <= model.length && length <= 60; length++) {
    const start = model.slice(0, length);
    if (texts.filter((text) => text.startsWith(start)).length < NEARLY_ALL * texts.length) break;
    if (/[^\p{L}\d]$/u.test(start)) end = length;
  }
  return model.slice(0, end);
}

function firstWords(text: string): string {
  return text.toLowerCase().split(/\s+/).slice(0, 3).join(' ').replace(/\d+/g, '#');
}

/** Number of phrases that occur once in nearly every job, after the message that introduces it. */
export function statesOfEach(jobs: readonly (readonly string[])[]): number {
  const counts = new Map<string, number>();
  for (const own of jobs)
    for (const state of new Set(own.slice(1).filter(namesNoFile).map(stateOf))) increment(counts, state);
  return [...counts.values()].filter((count) => count >= OF_EACH * jobs.length).length;
}

/** A saved frame was begun earlier. */
function namesNoFile(rest: string): boolean {
  return !rest.split(/[\s,;"'“”«»()]+/).some(isFrameFile);
}

/** The first words of a message, without numbers: `is started`, `done`. */
function stateOf(rest: string): string {
  return (rest.match(/\p{L}+/gu) ?? []).slice(0, 2).join(' ').toLowerCase();
}
