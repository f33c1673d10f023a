import { beginOf, EVENT_NAMES, type EventName } from '../../../../model/index.js';
import type { Kind } from '../kinds/kind.js';
import { besideFit } from './beside.js';
import { Grammar, STATES, stateIndex } from './grammar.js';
import { labelOf } from './labels.js';
import type { StatedTimes } from './night-fit.js';
import type { Occurrence } from './occurrences.js';
import type { Trains } from './trains.js';

/** An event of one train, or of all (−1). */
interface Step {
  readonly atMs: number;
  readonly state: number;
}

/** Number of lines of a kind that are sampled. */
const MAX_LINES = 60;
const CLOSED = stateIndex('exposure-end') ?? -1;

/** The timeline around the lines of a kind: how well each event fits after the previous one and before the next. */
export interface Around {
  readonly before: ReadonlyMap<EventName, number>;
  readonly after: ReadonlyMap<EventName, number>;
}

/** The classified events of a log in chronological order, per train. */
export class Surroundings {
  private readonly chains: readonly (readonly Step[])[];
  private readonly grammar: Grammar;
  private readonly closes: boolean;
  private readonly timesOf = new Map<Kind, { readonly atMs: number; readonly train: number }[]>();

  constructor(
    taken: ReadonlyMap<Kind, EventName>,
    timeline: readonly Occurrence[],
    times: StatedTimes,
    trains: Trains | null,
  ) {
    const events = new Set(taken.values());
    const chains: Step[][] = Array.from({ length: Math.max(1, trains?.names.length ?? 1) }, () => []);
    const nths = new Map<Kind, number>();
    this.closes = events.has('exposure-end');
    for (const { kind, atMs } of timeline) {
      const nth = nths.get(kind) ?? 0;
      nths.set(kind, nth + 1);
      const train = trains?.of(kind, nth) ?? -1;
      const own = this.timesOf.get(kind) ?? [];
      own.push({ atMs, train });
      this.timesOf.set(kind, own);
      const event = taken.get(kind);
      const state = event === undefined ? undefined : stateIndex(event);
      if (event === undefined || state === undefined) continue;
      const steps: Step[] = [{ atMs, state }];
      const begin = beginOf(event);
      const tookMs = times.tookMs.get(kind)?.[nth] ?? NaN;
      if (begin !== undefined && !events.has(begin) && tookMs >= 0)
        steps.push({ atMs: atMs - tookMs, state: stateIndex(begin) ?? state });
      const opensMs = times.opensMs.get(kind)?.[nth] ?? NaN;
      if (event === 'exposure-begin' && !this.closes && opensMs >= 0)
        steps.push({ atMs: atMs + opensMs, state: CLOSED });
      for (const [i, chain] of chains.entries()) if (train < 0 || train === i) chain.push(...steps);
    }
    for (const chain of chains) chain.sort((a, b) => a.atMs - b.atMs);
    this.chains = chains;
    const logged = [...taken.values()].flatMap((event) => [event, ...(beginOf(event) ?? [])]);
    this.grammar = new Grammar(STATES.map((state) => logged.includes(state)));
  }

  of(kind: Kind): Around {
    const lines = this.timesOf.get(kind) ?? [];
    const every = Math.max(1, Math.ceil(lines.length / MAX_LINES));
    const before = new Map<EventName, number>();
    const after = new Map<EventName, number>();
    const own = lines.filter((_, i) => i % every === 0);
    for (const event of EVENT_NAMES) {
      let [b, a, n] = [0, 0, 0];
      for (const { atMs, train } of own) {
        let best: readonly [number, number] | null = null;
        for (const [i, chain] of this.chains.entries()) {
          if (train >= 0 && train !== i) continue;
          const fit = this.fit(event, chain, atMs);
          if (best === null || fit[0] + fit[1] > best[0] + best[1]) best = fit;
        }
        if (best === null) continue;
        b += best[0];
        a += best[1];
        n++;
      }
      before.set(event, n === 0 ? 0 : b / n);
      after.set(event, n === 0 ? 0 : a / n);
    }
    return { before, after };
  }

  private fit(event: EventName, chain: readonly Step[], atMs: number): readonly [number, number] {
    const next = firstAfter(chain, atMs);
    const [last, coming] = [chain[next - 1], chain[next]];
    const state = stateIndex(event);
    if (state === undefined) {
      if (last === undefined) return [0, 0];
      const fit = besideFit(labelOf(event), last.state, atMs - last.atMs, this.closes);
      return [Number.isNaN(fit) ? 0 : fit, 0];
    }
    return [
      last === undefined ? 0 : this.grammar.score(last.state, state, (atMs - last.atMs) / 1000),
      coming === undefined ? 0 : this.grammar.score(state, coming.state, (coming.atMs - atMs) / 1000),
    ];
  }
}

/** Index of the first step after an instant. */
function firstAfter(chain: readonly Step[], atMs: number): number {
  let [low, high] = [0, chain.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((chain[middle]?.atMs ?? Infinity) > atMs) high = middle;
    else low = middle + 1;
  }
  return low;
}
