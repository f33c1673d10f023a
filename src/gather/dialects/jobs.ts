import type { JobRules } from './compiled.js';

/** Maximum number of open jobs; a night has fewer. */
const KEPT = 20_000;
/** A job's subject takes few words. */
const MAX_ABOUT = 500;

/** Separates a message from its job's subject. */
export const ABOUT = ' — ';

/**
 * Messages that identify their subject by a number only: `job 17 is done` after `job 17 begins: focus`. The text of the
 * message that introduced the number is appended to each.
 */
export class Jobs {
  private readonly about = new Map<string, string>();

  constructor(private readonly rules: JobRules) {}

  /** The message with its job's subject. */
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
