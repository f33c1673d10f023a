/**
 * A plan to be shared, made from shared nights: for the middle of a square of ten degrees. Times count from the begin
 * of darkness, in whole hours; altitudes and transits, which would mislead for another location, are left out.
 */
import { durationMs, interval, type Interval, type Plan, type PlannedNight } from '../model/index.js';

const SQUARE =
  'Darkness and altitudes are those of the centre of the ten-degree square that contains the site: the plan ' +
  'for the site itself differs.';
const STEP_MS = 30 * 60_000;
const HOUR_MS = 3_600_000;

/** The plan without what reveals the site. */
export function sharePlan(plan: Plan): Plan {
  return {
    ...plan,
    site: null,
    zone: null,
    nights: plan.nights.map(sharedNight),
    assumptions: [...plan.assumptions.slice(0, 2), SQUARE],
  };
}

function sharedNight(night: PlannedNight): PlannedNight {
  const { date, window } = night;
  if (window === null) return night;
  const zeroMs = Date.parse(`${date}T00:00:00Z`);
  const moved = (atMs: number): number => zeroMs + Math.round((atMs - window.startMs) / STEP_MS) * STEP_MS;
  const span = ({ startMs, endMs }: Interval): Interval => interval(moved(startMs), moved(endMs));
  return {
    ...night,
    window: interval(zeroMs, zeroMs + Math.round((window.endMs - window.startMs) / HOUR_MS) * HOUR_MS),
    moonIllumination: Math.round(night.moonIllumination * 10) / 10,
    moonUp: [],
    free: night.free.map((one) => ({ ...one, span: span(one.span) })).filter((one) => durationMs(one.span) > 0),
    blocks: night.blocks.map((block) => ({
      ...block,
      span: span(block.span),
      altitudeDeg: null,
      moonSeparationDeg: block.moonSeparationDeg === null ? null : Math.round(block.moonSeparationDeg / 10) * 10,
      transitMs: null,
      trains: block.trains.map((train) =>
        train.state === 'rests' ? train : { ...train, refocusMs: train.refocusMs.map(moved) },
      ),
    })),
  };
}
