/**
 * What broadband exposures lost to the Moon, and what a narrow band of the same train would have lost in their place:
 * by the model only, for nothing was measured through the filter not in use.
 */
import {
  durationMs,
  groupBy,
  isNarrowband,
  statedFilter,
  sum,
  type JudgedFrame,
  type NarrowInstead,
} from '../model/index.js';
import { worthUnder, type FilterUse } from './filter-order.js';
import { lightOf, type LightContext } from './light.js';
import { usualExposureMs } from './settings.js';

/** Of equally affected filters the one in which most targets emit. */
const ALIKE = 1.15;
const FIRST = 'ha';

/** For each train with kept broadband frames whose noise is known, the narrow band that would have lost least. */
export function narrowInstead(frames: readonly JudgedFrame[], context: LightContext): NarrowInstead[] {
  const isNarrow = (train: string, filter: string): boolean =>
    isNarrowband(statedFilter(filter, train, context.cameras));
  const broad = frames.filter((f) => f.verdict === 'kept' && f.filter !== undefined && !isNarrow(f.train, f.filter));
  return [...groupBy(broad, ({ train }) => train)].flatMap(([train, own]) => {
    const useOf = (filter: string): FilterUse => {
      const through = frames.filter((f) => f.train === train && f.filter === filter);
      return {
        ...lightOf({ train, filter }, through, context),
        referenceSeconds: context.referenceMs / 1000,
        // Another filter in their place takes their subs.
        subSeconds: usualExposureMs(isNarrow(train, filter) ? own : through) / 1000,
      };
    };
    const filters = [...new Set(own.flatMap((f) => f.filter ?? []))];
    const uses = new Map(filters.map((filter) => [filter, useOf(filter)]));
    const narrow = narrowOf(train, frames, context).map(useOf);
    // If the sky is assumed to be the only noise, filters differ by extinction only: that is not informative.
    const known = narrow.filter(({ noise }) => noise.full !== null);
    if ([...uses.values()].some(({ noise }) => noise.full === null) || known.length === 0) return [];
    const lossMs = lost(own, ({ filter = '' }) => uses.get(filter));
    const losses = known.map((use) => ({ filter: use.filter, lossMs: lost(own, () => use) }));
    const leastMs = Math.min(...losses.map((one) => one.lossMs));
    const alike = losses.filter((one) => one.lossMs <= ALIKE * leastMs);
    const instead = alike.find(({ filter }) => filter.trim().toLowerCase() === FIRST) ?? alike[0];
    return instead ? [{ train, filters, lossMs, instead }] : [];
  });
}

/** Open-shutter time lost to moonlight by exposures through a filter each, ms. */
function lost(frames: readonly JudgedFrame[], useOf: (frame: JudgedFrame) => FilterUse | undefined): number {
  return sum(
    frames.map((frame) => {
      const use = useOf(frame);
      const worth = use && frame.sky ? worthUnder(use, frame.sky) : null;
      return worth ? worth.loss * durationMs(frame.exposure) : 0;
    }),
  );
}

/** Narrow bands that the train is known to have: used on this night, or with a bandwidth in the rig file. */
function narrowOf(train: string, frames: readonly JudgedFrame[], { cameras }: LightContext): string[] {
  const widths = Object.keys(cameras.find(({ id }) => id === train)?.filterWidthsNm ?? {});
  const used = frames.flatMap((f) => (f.train === train ? (f.filter ?? []) : []));
  const names = new Map([...widths, ...used].map((filter) => [filter.trim().toLowerCase(), filter]));
  return [...names.values()].filter((filter) => isNarrowband(statedFilter(filter, train, cameras)));
}
