/** What a rule may count on of trains whose patience the night does not show. */
import type { Course, ReplayRules } from './course.js';

const OTHER_RHYTHM: ReadonlySet<string> = new Set(['dither-every', 'dither-lead', 'exposure']);

/**
 * Of a train that no dither ever caught free nobody knows whether it would wait for one at hand. Under another rhythm
 * one may catch it: what such a rule wins must not rest on a patience that nobody has seen.
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
