import { isOfSeconds } from '../lengths.js';
import type { Kind, Slot } from '../kinds/kind.js';
import { numberIn } from '../kinds/values.js';
import { isTook, tookUnit } from '../group-names.js';
import type { Stated } from './durations.js';
import type { StatedTimes } from './night-fit.js';
import type { Candidate } from './own-evidence.js';
import type { StatedExposure } from './structure.js';

/** The known times stated by the lines of each kind. */
export function statedTimes(
  candidates: readonly Candidate[],
  stated: readonly StatedExposure[],
  durations: ReadonlyMap<Kind, Stated>,
): StatedTimes {
  const inMs = (slot: Slot, unitSeconds: number): number[] =>
    slot.perLine.map((value) => numberIn(value) * unitSeconds * 1000);
  return {
    rows: new Set(candidates.flatMap(({ kind, tookMs }) => (tookMs === undefined ? [] : [kind]))),
    opensMs: new Map(stated.map(({ begin, seconds, unitSeconds }) => [begin, inMs(seconds, unitSeconds)])),
    tookMs: new Map(
      candidates.flatMap(({ kind, tookMs }): [Kind, readonly number[]][] => {
        if (tookMs !== undefined) return [[kind, tookMs]];
        const slot = kind.slots.find((one) => isTook(one)) ?? kind.slots.find(isOfSeconds);
        if (slot === undefined || durations.get(kind) === 'planned') return [];
        return [[kind, inMs(slot, tookUnit(slot) ?? 1)]];
      }),
    ),
  };
}
