/**
 * The order of the filters on one target and train, and the sequential order that would have lost least to the Moon.
 * The night's own exposures are the slots; each filter keeps its time. Only the model is used, for nothing was measured
 * through the filters not in use.
 */
import {
  durationMs,
  itemAt,
  sum,
  type FilterOrder,
  type FilterPlace,
  type JudgedFrame,
  type SkyPosition,
} from '../model/index.js';
import type { Band } from './band.js';
import { shareUnder } from './frame-worth.js';
import type { Noise } from './noise-basis.js';
import { cheapestOrder } from './one-after-another.js';
import { clearTransparency, type PredictedSky } from './sky-model.js';

/** One filter as it was used on the target. */
export interface FilterUse {
  readonly filter: string;
  readonly band: Band;
  readonly noise: Noise;
  readonly referenceSeconds: number;
  /** Its usual sub: in short ones read noise hides part of the effect of moonlight. */
  readonly subSeconds: number;
  /** Sky the model predicts through it. */
  readonly predicted: PredictedSky;
}

interface Slot {
  readonly ms: number;
  readonly user: number;
  /** Per filter: the value of the slot in it, as fractions of its length. */
  readonly worths: readonly SlotWorth[];
}

interface SlotWorth {
  readonly share: number;
  /** Part of the open shutter that moonlight takes. */
  readonly loss: number;
  readonly brighteningMag: number;
}

/**
 * Compares the actual order with the best one.
 *
 * @param kept kept frames of one target and train
 * @returns `null` for fewer than two filters
 */
export function filterOrder(kept: readonly JudgedFrame[], uses: readonly FilterUse[]): FilterOrder | null {
  const first = kept[0];
  if (!first || uses.length < 2) return null;
  const inTime = [...kept].sort((a, b) => a.exposure.startMs - b.exposure.startMs);
  const slots = inTime.flatMap((frame) => slotOf(frame, uses));
  const taken = uses.map((_use, user) => slots.map((slot) => (slot.user === user ? slot.ms : 0)));
  const loss = (user: number, slot: number): number => itemAt(itemAt(slots, slot).worths, user).loss;
  const order = cheapestOrder(taken, loss);
  const lossMs = sum(taken.flatMap((row, user) => row.map((ms, slot) => (ms > 0 ? ms * loss(user, slot) : 0))));
  // Alternating filters may have done better than any order of blocks.
  const isBetter = order.cost < lossMs;
  const best = isBetter ? order.amounts : taken;
  const filters = uses.map((use, user) => placeOf(use, user, slots, itemAt(taken, user), itemAt(best, user)));
  return {
    train: first.train,
    target: first.target ?? '',
    lossMs: sum(filters.map((f) => f.lossMs)),
    bestLossMs: sum(filters.map((f) => f.bestLossMs)),
    best: isBetter ? order.users.map((user) => itemAt(uses, user).filter) : null,
    filters: filters.sort((a, b) => (a.filter < b.filter ? -1 : 1)),
  };
}

function slotOf(frame: JudgedFrame, uses: readonly FilterUse[]): Slot[] {
  const { sky } = frame;
  const user = uses.findIndex((use) => use.filter === (frame.filter ?? ''));
  if (user < 0 || !sky || sky.airmass === null) return [];
  const worths: SlotWorth[] = [];
  for (const use of uses) {
    const worth = worthUnder(use, sky);
    if (!worth) return [];
    worths.push(worth);
  }
  return [{ ms: Math.round(durationMs(frame.exposure)), user, worths }];
}

/** The value of an exposure through a filter at an instant by the model; `null` if the sky is unknown. */
export function worthUnder(use: FilterUse, at: SkyPosition): SlotWorth | null {
  const { predicted, band, noise, referenceSeconds, subSeconds } = use;
  const sky = at.airmass === null ? null : predicted(at);
  if (at.airmass === null || !sky) return null;
  const transparency = clearTransparency(band.k, at.airmass);
  const under = (ratio: number): number => shareUnder(ratio, transparency, subSeconds, { noise, referenceSeconds });
  const share = under(sky.dark + sky.twilight + sky.moon);
  return { share, loss: 1 - share / under(sky.dark + sky.twilight), brighteningMag: sky.moonBrighteningMag };
}

function placeOf(
  use: FilterUse,
  user: number,
  slots: readonly Slot[],
  taken: readonly number[],
  best: readonly number[],
): FilterPlace {
  const over = (amounts: readonly number[], value: (worth: SlotWorth) => number): number =>
    sum(slots.map(({ worths }, slot) => itemAt(amounts, slot) * value(itemAt(worths, user))));
  const exposureMs = sum(taken);
  return {
    filter: use.filter,
    exposureMs,
    noise: use.noise.full ? 'read-noise' : 'sky-limited',
    lossMs: over(taken, (w) => w.loss),
    bestLossMs: over(best, (w) => w.loss),
    effectiveMs: over(taken, (w) => w.share),
    bestEffectiveMs: over(best, (w) => w.share),
    brighteningMag: exposureMs > 0 ? over(taken, (w) => w.brighteningMag) / exposureMs : 0,
    bestBrighteningMag: exposureMs > 0 ? over(best, (w) => w.brighteningMag) / exposureMs : 0,
  };
}
