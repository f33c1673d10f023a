/** The night as a row of visits to targets, one after another: the best row by dynamic programming over their ends. */
import type { Span } from './space.js';

export interface Visit extends Span {
  /** Index among the row's targets. */
  readonly at: number;
}

/** What visits to a target are worth at most, by `begin × (slots + 1) + end`; −∞ where there can be none. */
export interface RowTarget {
  /** Of a visit that is the target's only one, or of all where it has no values for several. */
  readonly single: Float64Array;
  /** Where several visits share what the target lacks: what each is worth at prices, and the price of all lacking. */
  readonly several: { readonly values: Float64Array; readonly once: number } | null;
}

export interface Row {
  readonly bound: number;
  readonly visits: readonly Visit[];
}

/**
 * What has been done on a target whose visits share what it lacks: nothing, one visit for good, the first of several,
 * several.
 */
const [NEVER, ONCE, FIRST, SEVERAL] = [0, 1, 2, 3] as const;
const STATES = 4;

/** The best row of visits and rests. */
export function bestRow(slots: number, targets: readonly RowTarget[]): Row {
  const sharing = targets.flatMap(({ several }, at) => (several ? [at] : []));
  const states = STATES ** sharing.length;
  const weight = new Map(sharing.map((at, i) => [at, STATES ** i] as const));
  const best = Array.from({ length: slots + 1 }, () => new Float64Array(states).fill(-Infinity));
  const from = Array.from({ length: slots + 1 }, () => new Array<Step | null>(states).fill(null));
  best[0]![0] = 0;
  const offer = (end: number, state: number, value: number, step: Step | null): void => {
    if (value <= best[end]![state]!) return;
    best[end]![state] = value;
    from[end]![state] = step;
  };
  for (let end = 1; end <= slots; end++) {
    for (let state = 0; state < states; state++) offer(end, state, best[end - 1]![state]!, null);
    for (let begin = 0; begin < end; begin++) {
      targets.forEach(({ single, several }, at) => {
        const cell = begin * (slots + 1) + end;
        if (single[cell] === -Infinity) return;
        const unit = weight.get(at);
        for (let state = 0; state < states; state++) {
          const before = best[begin]![state]!;
          if (before === -Infinity) continue;
          const step = (to: number, value: number): void => offer(end, to, before + value, { at, begin, state });
          if (unit === undefined || several === null) {
            step(state, single[cell]!);
            continue;
          }
          const been = Math.floor(state / unit) % STATES;
          if (been === NEVER) {
            step(state + unit * ONCE, single[cell]!);
            step(state + unit * FIRST, several.values[cell]! + several.once);
          } else if (been === FIRST) step(state + unit * (SEVERAL - FIRST), several.values[cell]!);
          else if (been === SEVERAL) step(state, several.values[cell]!);
        }
      });
    }
  }
  let last = 0;
  for (let state = 1; state < states; state++) {
    const isWhole = sharing.every((_, i) => Math.floor(state / STATES ** i) % STATES !== FIRST);
    if (isWhole && best[slots]![state]! > best[slots]![last]!) last = state;
  }
  const bound = best[slots]![last]!;
  const visits: Visit[] = [];
  for (let end = slots; end > 0; ) {
    const step: Step | null = from[end]![last]!;
    if (step === null) end--;
    else {
      visits.unshift({ at: step.at, begin: step.begin, end });
      [end, last] = [step.begin, step.state];
    }
  }
  return { bound, visits };
}

interface Step {
  readonly at: number;
  readonly begin: number;
  readonly state: number;
}
