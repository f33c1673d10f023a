import type { EventName } from '../../../../model/index.js';

/** Shortest and longest usual time from one event to the next, seconds. */
export type Window = readonly [low: number, high: number];

/** The sequential events of one train's night; saved frames, lost stars and cooling run in parallel. */
export const STATES = [
  'exposure-begin',
  'exposure-end',
  'exposure-abort',
  'dither-ready',
  'dither-begin',
  'dither-end',
  'settling-begin',
  'settling-end',
  'focus-begin',
  'focus-end',
  'filter-begin',
  'filter-end',
  'slew-begin',
  'slew-end',
  'centre-begin',
  'centre-end',
  'flip-begin',
  'flip-end',
  'guiding-begin',
  'guiding-end',
  'guiding-rest-begin',
  'guiding-rest-end',
  'hold-begin',
  'hold-end',
] as const satisfies readonly EventName[];
export type State = (typeof STATES)[number];

const INDEX: ReadonlyMap<string, number> = new Map(STATES.map((state, i) => [state, i]));

/** The number of a state, `undefined` for events that run in parallel. */
export function stateIndex(event: EventName): number | undefined {
  return INDEX.get(event);
}

const SOON: Window = [0, 8];
/** What a program may do after the shutter closes (common practice, no source). */
const AFTER_EXPOSURE =
  'exposure-begin dither-ready dither-begin filter-begin ' +
  'guiding-rest-begin focus-begin guiding-end hold-begin flip-begin slew-begin';

/** Transitions between events, their usual durations, and the cost of unusual ones. */
const EDGES: readonly (readonly [from: State, to: string, within: Window, cost?: number])[] = [
  ['exposure-begin', 'exposure-end', [2, 3600]],
  ['exposure-begin', 'exposure-abort', [1, 3600], 0.2],
  ['exposure-end', AFTER_EXPOSURE, SOON],
  ['exposure-abort', AFTER_EXPOSURE, [0, 60], 0.1],
  ['dither-ready', 'dither-begin', [0, 120]],
  // The log of a companion train reports only its own waits.
  ['dither-ready', 'exposure-begin filter-begin focus-begin', [3, 300], 0.25],
  ['dither-begin', 'dither-end', [0.2, 5]],
  ['dither-end', 'settling-begin', [0, 2]],
  ['settling-begin', 'settling-end', [3, 90]],
  ['settling-end', 'exposure-begin', [0, 6]],
  [
    'settling-end',
    'filter-begin focus-begin guiding-rest-begin dither-ready dither-begin guiding-end slew-begin',
    SOON,
    0.25,
  ],
  ['filter-begin', 'filter-end', [0.5, 20]],
  ['filter-end', 'exposure-begin focus-begin guiding-begin', SOON],
  ['filter-end', 'guiding-rest-begin guiding-rest-end centre-begin slew-begin filter-begin dither-begin', SOON, 0.25],
  ['guiding-rest-begin', 'focus-begin', SOON],
  ['guiding-rest-begin', 'filter-begin', SOON, 0.2],
  ['focus-begin', 'focus-end', [25, 420]],
  ['focus-end', 'guiding-rest-end guiding-begin exposure-begin', SOON],
  ['focus-end', 'filter-begin slew-begin centre-begin settling-begin focus-begin', SOON, 0.3],
  ['guiding-rest-end', 'settling-begin', SOON],
  ['guiding-rest-end', 'exposure-begin filter-begin', SOON, 0.2],
  ['guiding-end', 'slew-begin flip-begin', SOON],
  ['guiding-end', 'hold-begin focus-begin', [0, 60], 0.15],
  ['guiding-end', 'guiding-begin centre-begin filter-begin exposure-abort', [0, 120], 0.3],
  ['slew-begin', 'slew-end', [5, 150]],
  ['slew-end', 'centre-begin', SOON],
  ['slew-end', 'filter-begin focus-begin guiding-begin exposure-begin', SOON, 0.2],
  ['centre-begin', 'centre-end', [5, 240]],
  ['centre-end', 'filter-begin focus-begin guiding-begin', SOON],
  ['centre-end', 'exposure-begin slew-begin centre-begin', SOON, 0.25],
  ['guiding-begin', 'settling-begin', SOON],
  ['guiding-begin', 'exposure-begin filter-begin focus-begin', [0, 30], 0.25],
  ['flip-begin', 'flip-end', [20, 420]],
  ['flip-end', 'centre-begin guiding-begin', SOON],
  ['flip-end', 'slew-begin focus-begin filter-begin', SOON, 0.2],
  ['hold-begin', 'hold-end', [90, 30_000]],
  ['guiding-end', 'hold-end', [60, 30_000], 0.2],
  ['exposure-abort', 'hold-end', [60, 30_000], 0.2],
  ['hold-begin', 'guiding-end exposure-abort', [0, 60], 0.2],
  ['hold-end', 'slew-begin guiding-begin centre-begin', [0, 30]],
  ['hold-end', 'exposure-begin focus-begin filter-begin', [0, 60], 0.2],
];

interface Edge {
  readonly to: number;
  readonly low: number;
  readonly high: number;
  readonly cost: number;
}

const OUTGOING: readonly (readonly Edge[])[] = STATES.map((state) =>
  EDGES.filter(([from]) => from === state).flatMap(([, to, [low, high], cost = 0]) =>
    to.split(' ').map((name) => ({ to: INDEX.get(name) ?? 0, low, high, cost })),
  ),
);

/** Cost of an event that the log omits. */
const SILENT = 0.12;
const MAX_SILENT = 4;
/** Logs are written for exposures: hardly any omits their begins. */
const SILENCE: readonly number[] = STATES.map((state) =>
  state === 'exposure-begin' ? 2 : state === 'exposure-end' ? 0.3 : state === 'exposure-abort' ? 0.5 : SILENT,
);
/** Costlier paths explain nothing. */
const DEAREST = 1.1;
const MOST_WAYS = 12;
/** Fit of an event that cannot follow. */
const IMPOSSIBLE = -0.8;
/** Maximum cost of a duration far outside its window. */
const WORST_TIME = 1;

/** A path from one event to the next through unlogged events. */
export interface Way {
  readonly low: number;
  readonly high: number;
  readonly cost: number;
}

/** A path, and the states it skips, one bit each. */
interface Path extends Way {
  readonly over: number;
}

/** For logs with exposures and for others, by both ends: all possible paths, cheapest first. */
const paths: readonly (readonly Path[] | undefined)[][] = [[], []];

/** All paths between two states, by `from * STATES.length + to`; the same for every log. */
function pathsBetween(from: number, to: number, isImaging: boolean): readonly Path[] {
  const known = paths[Number(isImaging)] ?? [];
  if (known[from * STATES.length] === undefined)
    for (const [end, own] of pathsFrom(from, isImaging).entries()) known[from * STATES.length + end] = own;
  return known[from * STATES.length + to] ?? [];
}

/** All paths from a state, by end state. */
function pathsFrom(from: number, isImaging: boolean): readonly (readonly Path[])[] {
  const found = STATES.map((): Path[] => []);
  /** @param path the states passed through, one bit each */
  const visit = (state: number, low: number, high: number, soFar: number, silent: number, path: number): void => {
    for (const edge of OUTGOING[state] ?? []) {
      const cost = soFar + edge.cost;
      if (cost > DEAREST) continue;
      found[edge.to]?.push({ low: low + edge.low, high: high + edge.high, cost, over: path & ~(1 << from) });
      if (silent === MAX_SILENT || (path & (1 << edge.to)) !== 0) continue;
      const silence = isImaging ? (SILENCE[edge.to] ?? SILENT) : SILENT;
      visit(edge.to, low + edge.low, high + edge.high, cost + silence, silent + 1, path | (1 << edge.to));
    }
  };
  visit(from, 0, 0, 0, 0, 1 << from);
  return found.map((own) => own.sort((a, b) => a.cost - b.cost));
}

/** How well events follow each other in a log that reports some of them and omits others. */
export class Grammar {
  private readonly ways: (readonly Way[] | undefined)[] = new Array<undefined>(STATES.length ** 2).fill(undefined);

  /** The states that the log reports, one bit each. */
  private readonly logged: number;
  /** A log of only guiding or the mount omits every exposure. */
  private readonly isImaging: boolean;

  /**
   * @param logged by state number: whether the log reports it
   * @param known paths found by other grammars: identical paths share a list
   */
  constructor(
    logged: readonly boolean[],
    private readonly known = new Map<string, readonly Way[]>(),
  ) {
    this.logged = logged.reduce((bits, isLogged, state) => (isLogged ? bits | (1 << state) : bits), 0);
    this.isImaging = STATES.some((state, i) => state.startsWith('exposure') && logged[i] === true);
  }

  /** From −1 (impossible) to 1 (usual), for one event so many seconds after another. */
  score(from: number, to: number, seconds: number): number {
    return fitOf(this.waysBetween(from, to), seconds);
  }

  /** The paths from one event to another, cheapest first. */
  waysBetween(from: number, to: number): readonly Way[] {
    const key = from * STATES.length + to;
    let ways = this.ways[key];
    if (ways === undefined) {
      ways = this.search(from, to);
      this.ways[key] = ways;
    }
    return ways;
  }

  private search(from: number, to: number): readonly Way[] {
    const found: Path[] = [];
    // Which of all paths between the two: their numbers, one character each.
    let name = String.fromCharCode(from, to, Number(this.isImaging));
    // A cheap path explains as much as a costlier one of the same duration.
    for (const [i, path] of pathsBetween(from, to, this.isImaging).entries()) {
      if ((path.over & this.logged) !== 0) continue;
      found.push(path);
      name += String.fromCharCode(i);
      if (found.length === MOST_WAYS) break;
    }
    const same = this.known.get(name);
    if (same !== undefined) return same;
    this.known.set(name, found);
    return found;
  }
}

/** How well an event fits so many seconds after another, given the paths between them, cheapest first. */
export function fitOf(ways: readonly Way[], seconds: number): number {
  let best = IMPOSSIBLE;
  for (const { low, high, cost } of ways) {
    // No duration makes this path, or a costlier one, better than its cost.
    if (1 - cost <= best) break;
    const value = 1 - cost - timeCost(seconds, low, high);
    if (value > best) best = value;
  }
  return best;
}

/** 0 inside the window, growing with the ratio outside. */
export function timeCost(seconds: number, low: number, high: number): number {
  const slack = 1.1;
  if (seconds < low - slack)
    return Math.min(WORST_TIME, 0.15 + 0.45 * Math.log((low + 0.5) / Math.max(0.3, seconds + 0.5)));
  if (seconds > high + slack) return Math.min(WORST_TIME, 0.1 + 0.4 * Math.log(seconds / Math.max(1, high)));
  return 0;
}
