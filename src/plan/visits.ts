/**
 * The night as visits to targets, one after another: what each is worth from slot to slot, and the best row of them
 * (dynamic programming over their ends; R. Bellman 1957). As a target's lines are its own, a visit is bounded by all
 * that its target lacks, which prices alone do not see where a change costs much and little is left to take.
 */
import { itemAt } from '../model/collections.js';
import { pricedGains, type Layout } from './gains.js';
import { effortOf, REST, step, type Problem } from './problem.js';

/** Ways of one visit that are followed side by side. */
const WIDTH = 6;

interface Visit {
  readonly value: number;
  readonly way: readonly number[];
}

/** What a visit is worth, by the slot of its begin and that after its end. */
type Worth = (from: number, to: number) => Visit | undefined;

/** A good row of visits, each within the limits; a target that is visited twice may have promised more than it has. */
export function bestVisits(problem: Problem, layout: Layout): readonly number[] {
  const targets = targetsOf(problem, layout).map((own): Worth => {
    const from = problem.slots.map((_, slot) => visitsFrom(problem, own, slot));
    return (begin, end) => from[begin]?.[end - begin - 1];
  });
  return rowOf(problem.slots.length, targets).way;
}

/** No way is worth more than this, at prices in place of limits. */
export function visitBound(problem: Problem, prices: readonly number[], layout: Layout): number {
  const gains = pricedGains(problem, prices, layout);
  const targets = targetsOf(problem, layout).map((own): Worth => {
    const most = mostOf(problem, own, gains.margins);
    const from = problem.slots.map((_, slot) => {
      let values = own.map((to) => gains.anew(slot, to));
      const ends = [Math.max(...values)];
      for (let at = slot + 1; at < problem.slots.length; at++) {
        const before = values;
        values = own.map((to) => Math.max(...own.map((one, i) => itemAt(before, i) + gains.after(at, one, to))));
        ends.push(Math.max(...values));
      }
      return ends.map((value): Visit => ({ value: Math.min(value, most), way: [] }));
    });
    return (begin, end) => from[begin]?.[end - begin - 1];
  });
  const priced = problem.lacking.reduce((sum, hours, line) => sum + hours * itemAt(prices, line), 0);
  return rowOf(problem.slots.length, targets).value + priced;
}

function targetsOf({ choices }: Problem, { siblings }: Layout): (readonly number[])[] {
  return choices.flatMap(({ target }, index) => {
    const own = siblings[index] ?? [];
    return target >= 0 && own[0] === index ? [own] : [];
  });
}

/** All that a target's lines can give in one visit, less the change to it. */
function mostOf(
  problem: Problem,
  own: readonly number[],
  margins: readonly (readonly (readonly number[])[])[],
): number {
  const best = new Map<number, number>();
  let effort = Infinity;
  for (const index of own) {
    const choice = problem.choices[index];
    if (!choice) continue;
    effort = Math.min(effort, effortOf(problem, choice, index, 'target'));
    choice.picks.forEach((pick, train) => {
      if (!pick) return;
      const margin = Math.max(0, ...margins.map((slot) => itemAt(itemAt(slot, index), train)));
      best.set(pick.line, Math.max(best.get(pick.line) ?? margin, margin));
    });
  }
  return [...best].reduce((sum, [line, margin]) => sum + margin * itemAt(problem.lacking, line), -effort);
}

/** The best way found of each length, begun at a slot. */
function visitsFrom(problem: Problem, own: readonly number[], begin: number): Visit[] {
  const found: Visit[] = [];
  let ways: { readonly way: readonly number[]; readonly value: number; readonly left: readonly number[] }[] = [
    { way: [], value: 0, left: problem.lacking },
  ];
  for (let slot = begin; slot < problem.slots.length; slot++) {
    const next: typeof ways = [];
    for (const one of ways) {
      const before = problem.choices[one.way.at(-1) ?? -1];
      for (const index of own) {
        const choice = problem.choices[index];
        if (!choice || !problem.slots[slot]?.values[index]?.some((value) => value > 0)) continue;
        next.push({ way: [...one.way, index], ...step(problem, slot, before, choice, index, one) });
      }
    }
    ways = next.sort((a, b) => b.value - a.value).slice(0, WIDTH);
    const [best] = ways;
    if (!best) break;
    found.push(best);
  }
  return found;
}

/** The best row of visits and rests. */
function rowOf(slots: number, targets: readonly Worth[]): Visit {
  const best: Visit[] = [{ value: 0, way: [] }];
  for (let end = 1; end <= slots; end++) {
    const before = itemAt(best, end - 1);
    let own: Visit = { value: before.value, way: [...before.way, REST] };
    for (let begin = 0; begin < end; begin++) {
      const earlier = best[begin];
      for (const worth of targets) {
        const visit = worth(begin, end);
        if (!visit || !earlier || earlier.value + visit.value <= own.value) continue;
        own = { value: earlier.value + visit.value, way: [...earlier.way, ...visit.way] };
      }
    }
    best.push(own);
  }
  return best.at(-1) ?? { value: 0, way: [] };
}
