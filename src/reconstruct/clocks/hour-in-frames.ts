/**
 * A step of an hour in a train's frames alone: set back, its camera seems to expose twice at once for an hour, and what
 * continues the frames before it tells the two apart; set forward, an hour is missing.
 */
import { isDated, isDatedLight, itemAt, numberedOrders, sortedBy, type DatedHeader } from '../../model/index.js';
import { HOUR_MS, LEAST_BACK_MS, NEAR_MS, type HourStep, type Writing } from './hour-step.js';

/** Starts and lengths written to the second may seem to overlap by this, ms. */
const ROUNDING_MS = 2000;
/** Frames on either side that make a step. */
const FEWEST = 2;

/** The lights of a train before and after a step, each in its order. */
interface Sides {
  readonly before: readonly DatedHeader[];
  readonly after: readonly DatedHeader[];
}

/**
 * The place of a step in the frames of a train without a log; `null` if there is none.
 *
 * @param byMs an hour, forward or back
 */
export function stepInFrames({ train, headers, events }: Writing, byMs: number): HourStep | null {
  if (events.length > 0) return null;
  const lights = sortedBy(headers.filter(isDatedLight), (f) => f.exposure.startMs);
  const sides = byMs < 0 ? (whereNumbersGoBack(lights) ?? whereTwice(lights)) : whereMissing(lights);
  if (!sides || sides.before.length < FEWEST || sides.after.length < FEWEST) return null;
  const lastMs = itemAt(sides.before, sides.before.length - 1).exposure.endMs;
  const firstMs = itemAt(sides.after, 0).exposure.startMs;
  const later = new Set(sides.after.map(({ file }) => file));
  const known = new Set(lights.map(({ file }) => file));
  const others = headers.filter(isDated).filter(({ file }) => !known.has(file));
  // A dark in the hour that comes twice may be of either.
  if (others.some(({ exposure: { startMs } }) => startMs >= firstMs && startMs < lastMs)) return null;
  return {
    train,
    sources: ['headers'],
    atMs: lastMs,
    byMs: Math.sign(byMs) * HOUR_MS,
    by: `an hour that its frames ${byMs < 0 ? 'have twice' : 'lack'}, and the other trains`,
    isAfter: (written) => {
      if ('event' in written || !isDated(written)) return false;
      return known.has(written.file) ? later.has(written.file) : written.exposure.startMs >= Math.max(firstMs, lastMs);
    },
    lineFrom: ({ atMs }) => atMs.length,
  };
}

const follows = (after: DatedHeader, before: DatedHeader): boolean =>
  after.exposure.startMs >= before.exposure.endMs - ROUNDING_MS;

const inTurn = (lights: readonly DatedHeader[]): boolean =>
  lights.every((light, i) => i === 0 || follows(light, itemAt(lights, i - 1)));

/** The sides, if the clock went back by about an hour from one to the other, and neither overlaps itself. */
function anHourBack(before: readonly DatedHeader[], after: readonly DatedHeader[]): Sides | null {
  const last = before[before.length - 1];
  const [first] = after;
  if (!last || !first || !inTurn(before) || !inTurn(after)) return null;
  const backMs = last.exposure.endMs - first.exposure.startMs;
  return backMs >= LEAST_BACK_MS && backMs <= HOUR_MS + NEAR_MS ? { before, after } : null;
}

/** Where the times go back while the files' numbers go on. */
function whereNumbersGoBack(lights: readonly DatedHeader[]): Sides | null {
  for (const orders of numberedOrders(lights, (light) => light)) {
    const sides = orders.every((order) => order !== null) ? sidesOf(orders) : null;
    if (sides) return sides;
  }
  return null;
}

function sidesOf(orders: readonly (readonly DatedHeader[])[]): Sides | null {
  const before: DatedHeader[] = [];
  const after: DatedHeader[] = [];
  const open: DatedHeader[] = [];
  for (const order of orders) {
    const at = order.findIndex((light, i) => i > 0 && !follows(light, itemAt(order, i - 1)));
    if (at === -1) open.push(...order);
    else {
      before.push(...order.slice(0, at));
      after.push(...order.slice(at));
    }
  }
  const lastMs = Math.max(...before.map(({ exposure }) => exposure.endMs));
  const firstMs = Math.min(...after.map(({ exposure }) => exposure.startMs));
  // In the hour that comes twice a time alone does not tell.
  for (const light of open)
    if (light.exposure.endMs <= firstMs) before.push(light);
    else if (light.exposure.startMs >= lastMs) after.push(light);
    else return null;
  const byTime = (side: readonly DatedHeader[]): readonly DatedHeader[] =>
    sortedBy(side, ({ exposure }) => exposure.startMs);
  return anHourBack(byTime(before), byTime(after));
}

/**
 * Without numbers: the frames that each begin when the one before has ended, from the first on, and the rest. Where no
 * shutter was open at all for a moment in that hour, either might have gone on.
 */
function whereTwice(lights: readonly DatedHeader[]): Sides | null {
  const chain: DatedHeader[] = [];
  const rest: DatedHeader[] = [];
  for (const light of lights) {
    const last = chain[chain.length - 1];
    (last === undefined || follows(light, last) ? chain : rest).push(light);
  }
  const [first] = rest;
  const again = rest[rest.length - 1];
  if (first === undefined || again === undefined) return null;
  const before = chain.filter((light) => !follows(light, again));
  const sides = anHourBack(before, [...rest, ...chain.slice(before.length)]);
  let openMs = first.exposure.startMs;
  for (const { exposure } of lights) {
    if (exposure.endMs <= first.exposure.startMs || exposure.startMs >= again.exposure.endMs) continue;
    if (exposure.startMs > openMs) return null;
    openMs = Math.max(openMs, exposure.endMs);
  }
  return sides;
}

/** Before and after the longest pause, if an hour fits into it. */
function whereMissing(lights: readonly DatedHeader[]): Sides | null {
  let best = { at: 0, pauseMs: HOUR_MS - NEAR_MS };
  for (let at = 1; at < lights.length; at++) {
    const pauseMs = itemAt(lights, at).exposure.startMs - itemAt(lights, at - 1).exposure.endMs;
    if (pauseMs > best.pauseMs) best = { at, pauseMs };
  }
  return best.at === 0 ? null : { before: lights.slice(0, best.at), after: lights.slice(best.at) };
}
