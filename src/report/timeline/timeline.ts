import { hull, interval, intersect, type Activity, type Interval, type Night, type Train } from '../../model/index.js';
import type { Palette } from '../design/filters.js';
import { clockOf, type Clock } from '../text/clock.js';
import { duration } from '../text/duration.js';
import { buildLane, laneHeight, type Lane, type LaneHeights } from './lanes.js';
import { fitClass, textWidthPx, timeScale, type TimeScale } from './scale.js';
import { buildSharedLane, sharedHeight, type SharedHeights, type SharedLane } from './shared-lane.js';
import { buildSky, type SkyView } from './sky-band.js';

export interface AxisTick {
  readonly x: string;
  readonly label: string;
  readonly anchor: string;
  readonly fit: string;
}

export interface HoldBlock {
  readonly x: string;
  readonly xEnd: string;
  readonly middle: string;
  readonly title: string;
  readonly label: { readonly text: string; readonly fit: string } | null;
}

/** Everything a timeline's template draws. Positions along time in per cent, heights in px. */
export interface TimelineView {
  readonly height: number;
  readonly label: string;
  readonly axisTop: { readonly y: number; readonly ticks: readonly AxisTick[] };
  readonly axisBottom: { readonly y: number; readonly ticks: readonly AxisTick[] } | null;
  readonly plotTop: number;
  readonly plotHeight: number;
  readonly plotMiddle: number;
  readonly plotEnd: number;
  readonly sky: SkyView;
  readonly skyHeight: number;
  readonly skyLabelY: number;
  readonly lanes: readonly Lane[];
  readonly shared: SharedLane;
  /** Upright lines at the ends of the window, where they are in view. */
  readonly edges: readonly string[];
  readonly holds: readonly HoldBlock[];
  readonly holdY: number;
}

export interface TimelineSizes {
  readonly axis: number;
  readonly sky: number;
  readonly lane: LaneHeights;
  readonly shared: SharedHeights;
}

const MINUTE = 60_000;

export const OVERVIEW_SIZES: TimelineSizes = { axis: 20, sky: 54, lane: { name: 22, runs: 15, frames: 34, accounts: 6, letterAir: 9 }, shared: { tie: 11, mount: 11, guiding: 8 } };
export const STRIP_SIZES: TimelineSizes = { axis: 16, sky: 0, lane: { name: 15, runs: 0, frames: 24, accounts: 6, letterAir: 2 }, shared: { tie: 10, mount: 9, guiding: 6 } };

/** What the overview shows: the window and everything that happened, with some air at both ends. */
export function overviewSpan(night: Night): Interval {
  const all = hull([night.window, ...night.frames.map((frame) => frame.exposure)]) ?? night.window;
  const air = Math.max(10 * MINUTE, Math.round((all.endMs - all.startMs) * 0.02));
  return intersect(interval(all.startMs - air, all.endMs + air), night.span) ?? all;
}

/** A tick a whole hour, named by it; a tick each half hour, named in full, where the span is short. */
function axisTicks(clock: Clock, scale: TimeScale): AxisTick[] {
  const { startMs, endMs } = scale.span;
  const short = endMs - startMs <= 3 * 60 * MINUTE;
  const step = short ? 30 : 60;
  const stepShare = (step * MINUTE) / (endMs - startMs);
  return clock.ticks(startMs, endMs, step).map((atMs) => {
    const place = (atMs - startMs) / (endMs - startMs);
    const label = short ? clock.time(atMs) : clock.time(atMs).slice(0, 2);
    // Where ticks stand too close for a label each, every second one speaks.
    const even = short ? label.endsWith('00') : Number(label) % 2 === 0;
    const share = even ? Math.min(1, 2 * stepShare) : stepShare;
    return { x: scale.x(atMs), label, anchor: place < 0.015 ? 'start' : place > 0.985 ? 'end' : 'middle', fit: fitClass(textWidthPx(label, 12) + 3, share) ?? '' };
  });
}

function holdsOf(activities: readonly Activity[], scale: TimeScale, clock: Clock): HoldBlock[] {
  return activities.filter((a) => a.kind === 'hold' && a.train === undefined && scale.shows(a.span)).map(({ span, why }) => {
    const visible = intersect(span, scale.span) ?? span;
    const text = why ?? 'hold';
    const fit = fitClass(textWidthPx(text, 12), scale.share(visible.startMs, visible.endMs));
    return {
      x: scale.x(visible.startMs), xEnd: scale.x(visible.endMs), middle: scale.x((visible.startMs + visible.endMs) / 2),
      title: `on hold${why === undefined ? '' : ` (${why})`}: ${duration(span.endMs - span.startMs)} from ${clock.seconds(span.startMs)}`,
      label: fit === null ? null : { text, fit },
    };
  });
}

/** Pilots stand above the mount, companions below; a night of companions alone has its first above. */
function split(trains: readonly Train[]): { above: readonly Train[]; below: readonly Train[] } {
  const pilots = trains.filter((train) => train.role === 'pilot');
  const above = pilots.length > 0 ? pilots : trains.slice(0, 1);
  return { above, below: trains.filter((train) => !above.includes(train)) };
}

/**
 * Lays a night out on one time axis: trains above and below, mount and guiding between them, the sky behind.
 *
 * @param span what to show, UTC ms
 * @param label what the picture says, for those who do not see it
 */
export function buildTimeline(night: Night, span: Interval, sizes: TimelineSizes, clock: Clock, palette: Palette, label: string): TimelineView {
  const scale = timeScale(span);
  const { above, below } = split(night.trains);
  const one = laneHeight(sizes.lane);
  const plotTop = sizes.axis;
  const skyHeight = night.curves.length === 0 ? 0 : sizes.sky;
  const lanesTop = plotTop + skyHeight;
  const sharedTop = lanesTop + above.length * one;
  const belowTop = sharedTop + sharedHeight(sizes.shared);
  const lanes = [
    ...above.map((train, index) => buildLane(night, train, lanesTop + index * one, false, sizes.lane, scale, clock, palette)),
    ...below.map((train, index) => buildLane(night, train, belowTop + index * one, true, sizes.lane, scale, clock, palette)),
  ];
  const plotEnd = belowTop + below.length * one + 4;
  const utc = clock.offsetMinutes(span.startMs) === 0 && clock.offsetMinutes(span.endMs) === 0 ? null : clockOf('UTC');
  return {
    height: plotEnd + (utc === null ? 2 : sizes.axis), label,
    axisTop: { y: sizes.axis - 5, ticks: axisTicks(clock, scale) },
    axisBottom: utc === null ? null : { y: plotEnd + sizes.axis - 6, ticks: axisTicks(utc, scale) },
    plotTop, plotHeight: plotEnd - plotTop, plotMiddle: (plotTop + plotEnd) / 2, plotEnd,
    sky: buildSky(night, scale), skyHeight, skyLabelY: plotTop + skyHeight - 6,
    lanes, shared: buildSharedLane(night, lanes, sharedTop, sizes.shared, scale, clock),
    edges: [night.window.startMs, night.window.endMs].filter((atMs) => atMs > span.startMs && atMs < span.endMs).map((atMs) => scale.x(atMs)),
    holds: holdsOf(night.activities, scale, clock), holdY: sharedTop - 6,
  };
}

/** Spans of `hours` whole local hours that cover what happened. */
export function stripSpans(night: Night, clock: Clock, hours: number): Interval[] {
  const all = hull([night.window, ...night.frames.map((frame) => frame.exposure)]) ?? night.window;
  const length = hours * 60 * MINUTE;
  const first = clock.ticks(all.startMs - length, all.startMs, 60).at(-1) ?? all.startMs;
  const spans: Interval[] = [];
  for (let startMs = first; startMs < all.endMs; startMs += length) spans.push(interval(startMs, startMs + length));
  return spans;
}
