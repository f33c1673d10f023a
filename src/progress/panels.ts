/** Mosaics: the goal of the whole object, divided among the panels that were imaged. */
import { counted, goalsInParts, groupBy, wholeOfPanel, type Goals, type Warning } from '../model/index.js';
import type { NamedTarget, TargetNames } from './names.js';

/**
 * Divides the goal of each object of which only panels were imaged equally among them. A panel with its own goal keeps
 * it and is excluded; an object that was imaged as a whole keeps its goal.
 *
 * @param isImaged whether anything was imaged under a target
 * @returns the applicable goals, and notices about them
 */
export function sharedAmongPanels(
  goals: ReadonlyMap<NamedTarget, Goals>,
  names: TargetNames,
  isImaged: (target: NamedTarget) => boolean,
): { readonly goals: ReadonlyMap<NamedTarget, Goals>; readonly notices: readonly Warning[] } {
  const panels = names.targets.flatMap((panel) => {
    const whole = isImaged(panel) && !goals.has(panel) ? wholeOfPanel(panel.name) : null;
    return whole === null ? [] : [{ panel, whole: names.find(whole) }];
  });
  const out = new Map(goals);
  const notices: Warning[] = [];
  for (const [whole, own] of groupBy(panels, (p) => p.whole)) {
    const goal = goals.get(whole);
    if (!goal || isImaged(whole)) continue;
    out.delete(whole);
    for (const { panel } of own) out.set(panel, goalsInParts(goal, own.length));
    notices.push({
      code: 'goal-shared-by-panels',
      message:
        `the goal of ${whole.name} is shared in equal parts by the ${counted(own.length, 'panel')} imaged so far; ` +
        'give panels goals of their own where the mosaic has more, or where they differ',
      count: own.length,
    });
  }
  return { goals: out, notices };
}
