import {
  clockOf,
  hull,
  intersect,
  interval,
  overlapMs,
  type Clock,
  type Interval,
  type Night,
  imagedSpan,
} from '../../model/index.js';
import type { Palette } from '../design/filters.js';
import { sidesOf } from '../figures/sides.js';
import { axisTicks, type AxisTick } from './axis.js';
import type { Drawing } from './drawing.js';
import { holdsOf, type HoldBlock } from './holds.js';
import { buildLane, laneHeight, type Lane, type LaneHeights } from './lanes.js';
import { timeScale } from './scale.js';
import { buildSharedLane, sharedHeight, type SharedHeights, type SharedLane } from './shared-lane.js';
import { buildSky, type SkyView } from './sky-band.js';

/** Everything a timeline's template draws. Positions along time in per cent, heights in px. */
export interface TimelineView {
  readonly height: number;
  readonly label: string;
  /** Local hours, below the picture as everywhere in the report. */
  readonly axis: { readonly y: number; readonly ticks: readonly AxisTick[] };
  /** UTC below them, if requested or if one offset does not apply to the whole night. */
  readonly utcAxis: { readonly y: number; readonly ticks: readonly AxisTick[] } | null;
  /** Rows with names: no line crosses them. */
  readonly nameRows: readonly { readonly y: number; readonly height: number }[];
  readonly plotTop: number;
  readonly plotHeight: number;
  readonly plotMiddle: number;
  readonly plotEnd: number;
  readonly sky: SkyView;
  readonly skyHeight: number;
  readonly lanes: readonly Lane[];
  readonly shared: SharedLane;
  /** Vertical lines at the ends of the window, if visible. */
  readonly edges: readonly string[];
  readonly holds: readonly HoldBlock[];
  /** Base line of text above the picture: holds, and the Moon. */
  readonly aboveY: number;
}

/** Heights in px. */
export interface TimelineSizes {
  /** Above the picture. */
  readonly above: number;
  readonly axis: number;
  readonly sky: number;
  readonly lane: LaneHeights;
  readonly shared: SharedHeights;
}

export const OVERVIEW_SIZES: TimelineSizes = {
  above: 17,
  axis: 20,
  sky: 54,
  lane: { name: 22, runs: 15, frames: 34, accounts: 6, letterAir: 9 },
  shared: { tie: 11, mount: 11, guiding: 8 },
};

export const STRIP_SIZES: TimelineSizes = {
  above: 15,
  axis: 16,
  sky: 0,
  lane: { name: 15, runs: 0, frames: 24, accounts: 6, letterAir: 2 },
  shared: { tie: 10, mount: 9, guiding: 6 },
};

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
/** Activities that last for hours without action. */
const IDLE_KINDS: ReadonlySet<string> = new Set(['guiding-on', 'guiding-stopped']);
/** Maximum number of strips, whatever length an old record claims for the night. */
const MAX_STRIPS = 24;

/** From the first to the last item that a timeline must show. */
function happening(night: Night): Interval {
  return hull([night.sky.window, imagedSpan(night.accounts.lights) ?? night.sky.window]) ?? night.sky.window;
}

/** The range of the overview: the window and everything that happened, with a margin at both ends. */
export function overviewSpan(night: Night): Interval {
  const all = happening(night);
  const air = Math.max(10 * MINUTE, Math.round((all.endMs - all.startMs) * 0.02));
  return intersect(interval(all.startMs - air, all.endMs + air), night.span) ?? all;
}

/** Spans of `hours` whole local hours that cover what happened; empty ones are left out. */
export function stripSpans(night: Night, clock: Clock, hours: number): Interval[] {
  const all = happening(night);
  const length = Math.max(hours, Math.ceil((all.endMs - all.startMs) / HOUR / MAX_STRIPS)) * HOUR;
  const first = clock.ticks(all.startMs - length, all.startMs, 60).at(-1) ?? all.startMs;
  const spans: Interval[] = [];
  for (let startMs = first; startMs < all.endMs; startMs += length) spans.push(interval(startMs, startMs + length));
  const done = [
    ...night.accounts.lights.map(({ exposure }) => exposure),
    ...night.timeline.activities.flatMap((a) => (IDLE_KINDS.has(a.kind) ? [] : [a.span])),
  ];
  return spans.filter((span) => done.some((one) => overlapMs(one, span) > 0));
}

/** A timeline's text in addition to its marks. */
export interface TimelineSaying {
  readonly label: string;
  readonly showsUtc: boolean;
}

/**
 * Arranges a night on one time axis: trains above and below, mount and guiding between them, the sky behind.
 *
 * @param span what to show, UTC ms
 * @param saying the picture's alternative text, and whether it has a second axis in UTC
 */
export function buildTimeline(
  night: Night,
  span: Interval,
  sizes: TimelineSizes,
  clock: Clock,
  palette: Palette,
  { label, showsUtc }: TimelineSaying,
): TimelineView {
  const scale = timeScale(span);
  const drawing: Drawing = { night, scale, clock, palette };
  const { above, below } = sidesOf(night.gathered.trains);
  const skyHeight = night.sky.curves.length === 0 ? 0 : sizes.sky;
  const oneLane = laneHeight(sizes.lane);
  const plotTop = sizes.above;
  const lanesTop = plotTop + skyHeight;
  // Lanes not adjacent to the mount's have their own space for ties: none crosses another lane and its names.
  const stepPx = oneLane + sizes.shared.tie;
  const heightOf = (count: number): number => Math.max(0, count * stepPx - sizes.shared.tie);
  const sharedTop = lanesTop + heightOf(above.length);
  const belowTop = sharedTop + sharedHeight(sizes.shared);
  const plotEnd = belowTop + heightOf(below.length);
  const lanes = [
    ...above.map((train, index) => buildLane(train, lanesTop + index * stepPx, false, sizes.lane, drawing)),
    ...below.map((train, index) => buildLane(train, belowTop + index * stepPx, true, sizes.lane, drawing)),
  ];
  const edges = [night.sky.window.startMs, night.sky.window.endMs].filter(
    (atMs) => atMs > span.startMs && atMs < span.endMs,
  );
  const holds = holdsOf(drawing);
  const sky = buildSky(
    night,
    scale,
    holds.filter(({ label }) => label !== null).map((hold) => hold.span),
  );
  return {
    height: plotEnd + sizes.axis * (showsUtc ? 2 : 1),
    label,
    axis: { y: plotEnd + sizes.axis - 6, ticks: axisTicks(clock, scale) },
    utcAxis: showsUtc ? { y: plotEnd + 2 * sizes.axis - 6, ticks: axisTicks(clockOf('UTC'), scale) } : null,
    nameRows: lanes.map(({ nameTop, nameHeight }) => ({ y: nameTop, height: nameHeight })),
    plotTop,
    plotHeight: plotEnd - plotTop,
    plotMiddle: (plotTop + plotEnd) / 2,
    plotEnd,
    sky,
    skyHeight,
    lanes,
    shared: buildSharedLane(lanes, sharedTop, sizes.shared, drawing),
    edges: edges.map((atMs) => scale.x(atMs)),
    holds,
    aboveY: plotTop - 5,
  };
}
