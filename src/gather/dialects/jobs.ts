import type { JobRules } from './compiled.js';

/** Jobs that are kept at one time; a night has fewer. */
const KEPT = 20_000;
/** What a job is about takes few words. */
const MAX_ABOUT = 500;

/** What stands between a message and what its job is about. */
export const ABOUT = ' — ';

/**
 * Messages that say what they are about by a number alone: `job 17 is done` after `job 17 begins: focus`. Each has,
 * behind its own words, what the message said that brought the number up.
 */
export class Jobs {
  private readonly about = new Map<string, string>();

  constructor(private readonly rules: JobRules) {}

  /** The message with what its job is about. */
  take(text: string): string {
    const { begin, later } = this.rules;
    const begun = begin.exec(text);
    const job = begun?.[begin.groups.get('job') ?? 0];
    if (begun !== null && job !== undefined) {
      if (this.about.size >= KEPT) this.about.clear();
      this.about.set(job, (begun[begin.groups.get('about') ?? 0] ?? '').trim().slice(0, MAX_ABOUT));
      return text;
    }
    const number = later.exec(text)?.[later.groups.get('job') ?? 0];
    const about = number === undefined ? undefined : this.about.get(number);
    return about === undefined ? text : `${text}${ABOUT}${about}`;
  }
}
