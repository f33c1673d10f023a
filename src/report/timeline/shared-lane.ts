import {
  ACTIVITIES,
  duration,
  durationMs,
  GUIDING_OFF_KINDS,
  MOUNT_KINDS,
  overlapMs,
  type Activity,
  type ActivityKind,
  type Clock,
  type DitherCycle,
  ownValue,
} from '../../model/index.js';
import { evenly } from '../figures/listed.js';
import type { Drawing } from './drawing.js';
import type { Block, Lane } from './lanes.js';

/** An activity of the mount or the guiding. */
export interface SharedBlock extends Block {
  readonly kind: ActivityKind;
  /** Whether guiding was off under an open shutter: drawn with a cross. */
  readonly harm: boolean;
}

/** A line from a train's lane towards the mount: where it was ready and where the mount began to move. */
export interface Tie {
  readonly readyX: string;
  readonly beginX: string;
  readonly laneY: number;
  readonly mountY: number;
  readonly holder: boolean;
  readonly title: string;
}

/** The lanes shared by all trains: what the mount does, and whether guiding is on. Heights in px. */
export interface SharedLane {
  readonly mountY: number;
  readonly mountHeight: number;
  readonly mountMiddle: number;
  readonly mountEnd: number;
  readonly guidingY: number;
  readonly guidingHeight: number;
  readonly guidingMiddle: number;
  readonly guidingEnd: number;
  readonly mount: readonly SharedBlock[];
  readonly guiding: readonly SharedBlock[];
  readonly ties: readonly Tie[];
}

export interface SharedHeights {
  readonly tie: number;
  readonly mount: number;
  readonly guiding: number;
}

/** Between the mount and the guiding, px. */
const GAP = 3;

/** Number of distinguishable dithers on one axis; of more, this many are drawn, evenly spaced. */
const MOST_CYCLES = 300;

const MOUNT = new Set<ActivityKind>(MOUNT_KINDS);
const GUIDING = new Set<ActivityKind>(['guiding-start', 'guiding-on']);
const GUIDING_OFF = new Set<ActivityKind>(GUIDING_OFF_KINDS);

/** Height of the shared lanes with the space for ties above and below, px. */
export function sharedHeight({ tie, mount, guiding }: SharedHeights): number {
  return 2 * tie + mount + guiding + GAP;
}

function activityTitle({ kind, span, why, causedBy }: Activity, clock: Clock): string {
  const reasons = [...(why === undefined ? [] : [why]), ...(causedBy === undefined ? [] : [`by ${causedBy}`])];
  const reason = reasons.length === 0 ? '' : ` (${reasons.join(', ')})`;
  return `${ACTIVITIES[kind].label}${reason}: ${duration(durationMs(span))} from ${clock.seconds(span.startMs)}`;
}

function sharedBlock(activity: Activity, harm: boolean, { scale, clock }: Drawing): SharedBlock {
  const { kind, span } = activity;
  return {
    kind,
    harm,
    x: scale.x(span.startMs),
    xEnd: scale.x(span.endMs),
    width: scale.width(span.startMs, span.endMs),
    title: activityTitle(activity, clock),
  };
}

/** Guiding on, and guiding off where it harmed an open shutter; off while all were closed is just a gap. */
function guidingBlocks(shown: readonly Activity[], drawing: Drawing): SharedBlock[] {
  const exposures = drawing.night.accounts.lights
    .map((frame) => frame.exposure)
    .filter((exposure) => drawing.scale.shows(exposure));
  return shown.flatMap((activity): SharedBlock[] => {
    if (GUIDING.has(activity.kind)) return [sharedBlock(activity, false, drawing)];
    const harm = GUIDING_OFF.has(activity.kind) && exposures.some((exposure) => overlapMs(exposure, activity.span) > 0);
    return harm ? [sharedBlock(activity, true, drawing)] : [];
  });
}

function tiesOf(
  cycle: DitherCycle,
  lanes: readonly Lane[],
  mountY: number,
  mountEnd: number,
  tieHeight: number,
  { scale, clock }: Drawing,
): Tie[] {
  return lanes.flatMap((lane): Tie[] => {
    const wait = ownValue(cycle.waits, lane.train);
    if (!wait) return [];
    const moved = `the mount moved at ${clock.seconds(cycle.beginMs)}`;
    return [
      {
        readyX: scale.x(wait.readyMs),
        beginX: scale.x(cycle.beginMs),
        holder: cycle.holder === lane.train,
        laneY: lane.below ? lane.accountRow.y : lane.accountRow.end,
        mountY: lane.below
          ? Math.max(mountEnd, lane.accountRow.y - tieHeight)
          : Math.min(mountY, lane.accountRow.end + tieHeight),
        title:
          `${lane.train} was ready at ${clock.seconds(wait.readyMs)} and waited ${duration(wait.waitMs)}; ` +
          `${moved}`,
      },
    ];
  });
}

/**
 * Builds the lanes between the trains, and the ties of each dither cycle to every train that took part.
 *
 * @param top upper edge of the space between the trains' lanes, px
 */
export function buildSharedLane(
  lanes: readonly Lane[],
  top: number,
  heights: SharedHeights,
  drawing: Drawing,
): SharedLane {
  const { night, scale } = drawing;
  const shown = night.timeline.activities.filter((activity) => scale.shows(activity.span));
  const cycles = evenly(night.accounts.dithers, MOST_CYCLES).filter(({ beginMs }) =>
    scale.shows({ startMs: beginMs, endMs: beginMs + 1 }),
  );
  const mountY = top + heights.tie;
  const mountEnd = mountY + heights.mount;
  const guidingY = mountEnd + GAP;
  const guidingEnd = guidingY + heights.guiding;
  return {
    mountY,
    mountHeight: heights.mount,
    mountMiddle: mountY + heights.mount / 2,
    mountEnd,
    guidingY,
    guidingHeight: heights.guiding,
    guidingMiddle: guidingY + heights.guiding / 2,
    guidingEnd,
    mount: evenly(
      shown.filter(({ kind }) => MOUNT.has(kind)),
      2 * MOST_CYCLES,
    ).map((activity) => sharedBlock(activity, false, drawing)),
    guiding: evenly(guidingBlocks(shown, drawing), 2 * MOST_CYCLES),
    ties: cycles.flatMap((cycle) => tiesOf(cycle, lanes, mountY, guidingEnd, heights.tie, drawing)),
  };
}
