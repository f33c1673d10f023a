/**
 * Where something was touched: a pair of trains is aligned differently than on the previous night on which it was
 * measured.
 */
import { halfTurnDeg, type NightSummary, type PairSummary, type PairTrend } from '../model/index.js';

/** From night to night cameras that nobody touches stay within these (common practice, no source). */
const TURNED_DEG = 0.3;
/** References are dithered and flexure has moved them by some tens of arcseconds. */
const MOVED_ARCSEC = 90;
const SCALED_SHARE = 0.003;

/** The pairs of each night with changes since they were last measured, in the order of the nights. */
export function pairTrends(nights: readonly NightSummary[]): readonly (readonly PairTrend[])[] {
  const before = new Map<string, PairSummary>();
  return nights.map(({ pairs }) =>
    pairs.map((pair) => {
      const key = JSON.stringify(pair.trains);
      const last = before.get(key);
      before.set(key, pair);
      return { ...pair, touched: last ? changes(last, pair) : [] };
    }),
  );
}

function changes(last: PairSummary, now: PairSummary): string[] {
  const turned = Math.abs(halfTurnDeg(now.rotationDeg - last.rotationDeg));
  const moved = Math.abs(now.offsetArcsec - last.offsetArcsec);
  const scaled = Math.abs(now.scaleRatio / last.scaleRatio - 1);
  return [
    ...(turned >= TURNED_DEG ? [`turned by ${turned.toFixed(1)}°`] : []),
    ...(moved >= MOVED_ARCSEC ? [`centres moved by ${(moved / 60).toFixed(1)}′`] : []),
    ...(scaled >= SCALED_SHARE ? [`scale changed by ${(100 * scaled).toFixed(1)} %`] : []),
  ];
}
