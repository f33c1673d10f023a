/** What a rule may assume about trains whose patience the night does not show. */
import type { Course, ReplayRules } from './course.js';

const OTHER_RHYTHM: ReadonlySet<string> = new Set(['dither-every', 'dither-lead', 'exposure']);

/** Whether settings change how exposures meet dithers. */
export function changesRhythm(settings: readonly { readonly key: string }[]): boolean {
  return settings.some((s) => OTHER_RHYTHM.has(s.key));
}

/** The course with the other explanation of its waits, a patience instead of a count; `null` if there is none. */
export function withOtherPatience(course: Course): Course | null {
  const { rules, otherPatienceMs = {} } = course;
  const trains = Object.keys(otherPatienceMs);
  if (trains.length === 0) return null;
  const ownCount = Object.fromEntries(Object.entries(rules.ownCount).filter(([train]) => !trains.includes(train)));
  return { ...course, rules: { ...rules, ownCount, patienceMs: { ...rules.patienceMs, ...otherPatienceMs } } };
}

/**
 * For a train that no dither ever found free it is unknown whether it would wait for an imminent one. Under another
 * rhythm one may find it free: the gain of such a rule must not depend on unobserved patience.
 */
export function withoutUnseenPatience(
  course: Course,
  rules: ReplayRules,
  settings: readonly { readonly key: string; readonly train?: string | undefined }[],
): ReplayRules {
  const unseen = course.unseenPatience ?? [];
  if (unseen.length === 0 || !settings.some((s) => OTHER_RHYTHM.has(s.key))) return rules;
  const isSet = (train: string): boolean => settings.some((s) => s.key === 'patience' && s.train === train);
  const none = unseen.filter((train) => !isSet(train)).map((train) => [train, 0]);
  return { ...rules, patienceMs: { ...rules.patienceMs, ...Object.fromEntries(none) } };
}
