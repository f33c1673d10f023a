/**
 * Filter offsets of the focuser, measured: the position that a refocus found under each filter, corrected for the
 * temperature drift. One night suffices; several are better, and may each have their own zero point.
 */
import {
  groupBy,
  median,
  robustSpread,
  type NightFacts,
  focusRunsOf,
  lightsOf,
  atKey,
  increment,
} from '../model/index.js';
import { medianSlope } from './robust-line.js';

/** A focus position found. Steps, °C. */
export interface FocusSample {
  /** Shares a zero point: the night's date. */
  readonly night: string;
  readonly filter: string;
  readonly position: number;
  readonly temperatureC: number | null;
}

/** One filter's position relative to the reference, steps. */
export interface FilterOffset {
  readonly filter: string;
  readonly steps: number;
  /** Standard error of `steps`; `null` from a single refocus. */
  readonly uncertainty: number | null;
  readonly refocuses: number;
}

export interface FilterOffsets {
  /** The filter with most refocuses; its offset is 0. */
  readonly reference: string;
  /** Focus drift, steps per °C; `null` if no filter was focused at two temperatures on one night. */
  readonly stepsPerDegree: number | null;
  readonly offsets: readonly FilterOffset[];
}

/** Temperatures closer than this do not determine the drift, °C. */
const LEAST_STEP_C = 0.3;
/** Convergence limit, steps, and maximum number of iterations of the median polish. */
const STILL_STEPS = 1e-3;
const MOST_POLISHES = 200;

/** The positions that one train's refocuses found on one night. */
export function focusSamplesOf(night: NightFacts, train: string): FocusSample[] {
  const lights = lightsOf(night, train);
  return focusRunsOf(night, train).flatMap((run): FocusSample[] => {
    const after = lights.find((f) => f.exposure.startMs >= run.span.endMs - 1000);
    const position = run.activity.facts?.position ?? after?.header?.focusPosition;
    if (after?.filter === undefined || position === undefined || run.activity.facts?.ok === false) return [];
    return [
      {
        night: night.date,
        filter: after.filter,
        position,
        temperatureC: run.temperatureC ?? after.header?.focusTemperatureC ?? null,
      },
    ];
  });
}

/**
 * Measures the offsets: drift by the median slope within night and filter (Theil 1950, Sen 1968), then nights and
 * filters separated by median polish (Tukey 1977). `null` with fewer than two filters.
 */
export function measureOffsets(samples: readonly FocusSample[]): FilterOffsets | null {
  const stepsPerDegree = driftOf(samples);
  const cells = samples.map((s) => ({
    night: s.night,
    filter: s.filter,
    value: s.position - (s.temperatureC === null ? 0 : (stepsPerDegree ?? 0) * s.temperatureC),
  }));
  const byFilter = groupBy(cells, (c) => c.filter);
  const [reference] = [...byFilter].sort((a, b) => b[1].length - a[1].length).map(([filter]) => filter);
  if (reference === undefined || byFilter.size < 2) return null;
  const { filters, rests } = polished(cells);
  const zero = atKey(filters, reference);
  const offsets = [...byFilter].map(
    ([filter, own]): FilterOffset => ({
      filter,
      steps: atKey(filters, filter) - zero,
      uncertainty:
        own.length > 1 ? (1.2533 * robustSpread(own.map((c) => atKey(rests, c)))) / Math.sqrt(own.length) : null,
      refocuses: own.length,
    }),
  );
  return {
    reference,
    stepsPerDegree,
    offsets: offsets.sort((a, b) => Number(b.filter === reference) - Number(a.filter === reference)),
  };
}

function driftOf(samples: readonly FocusSample[]): number | null {
  const groups = groupBy(samples, (s) => JSON.stringify([s.night, s.filter]));
  return medianSlope(
    [...groups.values()].map((own) =>
      own.flatMap((s) => (s.temperatureC === null ? [] : [{ x: s.temperatureC, y: s.position }])),
    ),
    LEAST_STEP_C,
  );
}

interface Cell {
  readonly night: string;
  readonly filter: string;
  readonly value: number;
}

/** value = night + filter + residual, by alternately subtracting the medians of nights and filters. */
function polished(cells: readonly Cell[]): { filters: ReadonlyMap<string, number>; rests: ReadonlyMap<Cell, number> } {
  const rests = new Map(cells.map((c) => [c, c.value]));
  const filters = new Map<string, number>();
  /** Subtracts one kind of median; returns the largest. */
  const takeOut = (key: (c: Cell) => string, into: Map<string, number> | null): number => {
    let largest = 0;
    for (const [name, own] of groupBy(cells, key)) {
      const middle = median(own.map((c) => atKey(rests, c)));
      for (const cell of own) rests.set(cell, atKey(rests, cell) - middle);
      if (into !== null) increment(into, name, middle);
      largest = Math.max(largest, Math.abs(middle));
    }
    return largest;
  };
  for (let i = 0; i < MOST_POLISHES; i++) {
    const moved = takeOut((c) => c.night, null) + takeOut((c) => c.filter, filters);
    if (moved < STILL_STEPS) break;
  }
  return { filters, rests };
}
