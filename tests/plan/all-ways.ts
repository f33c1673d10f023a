import type { Problem } from '../../src/plan/problem.js';

/** The value of the best way, found by trying all; written apart from the program's own reckoning. */
export function bestOfAll(problem: Problem): number {
  const walk = (slot: number, before: number, left: readonly number[], visits: readonly number[]): number => {
    const here = problem.slots[slot];
    if (!here) return 0;
    let best = 0;
    problem.choices.forEach((choice, index) => {
      // Nothing is chosen that is worth nothing.
      if (choice.picks.some((pick, train) => pick && (here.values[index]?.[train] ?? 0) <= 0)) return;
      const rest = [...left];
      let gained = -(problem.effort.hour[choice.target] ?? 0) * here.hours;
      const old = before < 0 ? undefined : problem.choices[before];
      const isNewTarget = old?.target !== choice.target;
      // No target is come back to more than once.
      const visited = visits.map((count, target) => (isNewTarget && target === choice.target ? count + 1 : count));
      if (visited.some((count) => count > 2)) return;
      const changes = choice.picks.map((pick, train) => pick !== null && old?.picks[train]?.filter !== pick.filter);
      if (isNewTarget) gained -= problem.effort.target * Math.max(...(problem.full[index] ?? []));
      choice.picks.forEach((pick, train) => {
        const full = problem.full[index]?.[train] ?? 0;
        if (isNewTarget || changes[train]) gained -= problem.effort.filter * full;
        const worth = here.values[index]?.[train] ?? 0;
        if (!pick || worth === 0) return;
        let time = here.hours - (here.flips[choice.target] ?? 0);
        if (isNewTarget) time -= problem.lost.target;
        else if (changes[train]) time -= problem.lost.filter;
        else if (changes.some((change) => change)) time -= problem.lost.partner;
        const hours = Math.min(rest[pick.line] ?? 0, Math.max(0, time) * (here.rates[index]?.[train] ?? 0));
        rest[pick.line] = (rest[pick.line] ?? 0) - hours;
        gained += worth * hours;
      });
      best = Math.max(best, gained + walk(slot + 1, index, rest, visited));
    });
    return best;
  };
  return walk(0, -1, problem.lacking, [0, 0]);
}
