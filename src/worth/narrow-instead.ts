/**
 * What broadband exposures lost to the Moon, beside what a narrow band of the same train would have lost in their
 * place: by the model alone, for nothing was measured through the filter that was not in the way.
 */
import { durationMs, groupBy, isNarrowband, sum, type JudgedFrame, type NarrowInstead } from '../model/index.js';
import { worthUnder } from './filter-order.js';
import { lightOf, type LightContext } from './light.js';

/** For each train and target with kept broadband frames, the narrow band that would have lost least. */
export function narrowInstead(frames: readonly JudgedFrame[], context: LightContext): NarrowInstead[] {
  const referenceSeconds = context.referenceMs / 1000;
  const broad = frames.filter((f) => f.verdict === 'kept' && f.filter !== undefined && !isNarrowband(f.filter));
  return [...groupBy(broad, ({ train, target }) => JSON.stringify([train, target])).values()].flatMap((own) => {
    const [first] = own;
    if (!first) return [];
    const { train, target = '' } = first;
    const lossesThrough = (filterOf: (frame: JudgedFrame) => string): number => {
      const uses = new Map(
        [...groupBy(own, filterOf)].map(([filter]) => {
          const lights = frames.filter((f) => f.train === train && f.filter === filter);
          return [filter, { ...lightOf({ train, filter }, lights, context), referenceSeconds }] as const;
        }),
      );
      return sum(
        own.map((frame) => {
          const use = uses.get(filterOf(frame));
          const worth = use && frame.sky ? worthUnder(use, frame.sky) : null;
          return worth ? worth.loss * durationMs(frame.exposure) : 0;
        }),
      );
    };
    const lossMs = lossesThrough(({ filter = '' }) => filter);
    const [best] = narrowOf(train, frames, context)
      .map((filter) => ({ filter, lossMs: lossesThrough(() => filter) }))
      .sort((a, b) => a.lossMs - b.lossMs);
    return best
      ? [{ train, target, filters: [...new Set(own.flatMap((f) => f.filter ?? []))], lossMs, instead: best }]
      : [];
  });
}

/** Narrow bands that the train is known to have: used on this night, or with a width in the rig file. */
function narrowOf(train: string, frames: readonly JudgedFrame[], { cameras }: LightContext): string[] {
  const widths = Object.keys(cameras.find(({ id }) => id === train)?.filterWidthsNm ?? {});
  const used = frames.flatMap((f) => (f.train === train ? (f.filter ?? []) : []));
  const names = new Map([...widths, ...used].map((filter) => [filter.trim().toLowerCase(), filter]));
  return [...names.values()].filter((filter) => isNarrowband(filter));
}
