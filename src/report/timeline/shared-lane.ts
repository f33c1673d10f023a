import { durationMs, GUIDING_OFF_KINDS, MOUNT_KINDS, overlapMs, type Activity, type DitherCycle, type Interval, type Night } from '../../model/index.js';
import { tokens } from '../design/tokens.js';
import type { Clock } from '../text/clock.js';
import { duration } from '../text/duration.js';
import type { Block, Lane } from './lanes.js';
import { fitClass, textWidthPx, type TimeScale } from './scale.js';

export interface SharedBlock extends Block {
  readonly kind: string;
  /** Whether it is guiding that was off under an open shutter: drawn with a cross. */
  readonly harm: boolean;
  readonly label: { readonly text: string; readonly fit: string } | null;
}

/** A line from a train's lane to the mount: where it was ready and where the mount began to move. */
export interface Tie {
  readonly readyX: string;
  readonly beginX: string;
  readonly laneY: number;
  readonly mountY: number;
  readonly holder: boolean;
  readonly title: string;
}

/** The lanes all trains share: what the mount does, and whether guiding is on. Heights in px. */
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

/** Height of the shared lanes with the room for ties above and below, px. */
export function sharedHeight(heights: SharedHeights): number {
  return 2 * heights.tie + heights.mount + heights.guiding + 3;
}

const HARMFUL = new Set<string>(GUIDING_OFF_KINDS);
/** Guiding that is off while every shutter is closed is no more than a gap. */
const isGuiding = (kind: string): boolean => kind === 'guiding-on' || kind === 'guiding-start';

function activityTitle(activity: Activity, clock: Clock): string {
  const { span, why, causedBy } = activity;
  const reason = [why, causedBy === undefined ? undefined : `by ${causedBy}`].filter((one) => one !== undefined).join(', ');
  return `${tokens().activities[activity.kind]}${reason === '' ? '' : ` (${reason})`}: ${duration(durationMs(span))} from ${clock.seconds(span.startMs)}`;
}

function sharedBlock(activity: Activity, exposures: readonly Interval[], scale: TimeScale, clock: Clock): SharedBlock {
  const { kind, span } = activity;
  const text = kind === 'flip' ? 'flip' : kind === 'slew' ? 'slew' : '';
  const fit = text === '' ? null : fitClass(textWidthPx(text, 10), scale.share(span.startMs, span.endMs));
  return {
    kind, x: scale.x(span.startMs), xEnd: scale.x(span.endMs), width: scale.width(span.startMs, span.endMs),
    harm: HARMFUL.has(kind) && exposures.some((exposure) => overlapMs(exposure, span) > 0), title: activityTitle(activity, clock), label: fit === null ? null : { text, fit },
  };
}

function tiesOf(cycle: DitherCycle, lanes: readonly Lane[], mountY: number, mountEnd: number, scale: TimeScale, clock: Clock): Tie[] {
  return lanes.flatMap((lane): Tie[] => {
    const wait = cycle.waits[lane.train];
    if (!wait) return [];
    return [{
      readyX: scale.x(wait.readyMs), beginX: scale.x(cycle.beginMs), holder: cycle.holder === lane.train,
      laneY: lane.below ? lane.accountY : lane.accountY + lane.accountHeight, mountY: lane.below ? mountEnd : mountY,
      title: `${lane.train} was ready at ${clock.seconds(wait.readyMs)} and waited ${duration(wait.waitMs)}; the mount moved at ${clock.seconds(cycle.beginMs)}`,
    }];
  });
}

/** Builds the lanes between the trains, and the ties of each dither cycle to every train that took part. */
export function buildSharedLane(night: Night, lanes: readonly Lane[], top: number, heights: SharedHeights, scale: TimeScale, clock: Clock): SharedLane {
  const shown = night.activities.filter((activity) => scale.shows(activity.span));
  const isMount = new Set<string>(MOUNT_KINDS);
  const exposures = night.frames.map((frame) => frame.exposure).filter((exposure) => scale.shows(exposure));
  const mountY = top + heights.tie;
  const guidingY = mountY + heights.mount + 3;
  const mountEnd = mountY + heights.mount;
  const guidingEnd = guidingY + heights.guiding;
  return {
    mountY, mountHeight: heights.mount, mountMiddle: mountY + heights.mount / 2, mountEnd,
    guidingY, guidingHeight: heights.guiding, guidingMiddle: guidingY + heights.guiding / 2, guidingEnd,
    mount: shown.filter((a) => isMount.has(a.kind)).map((a) => sharedBlock(a, [], scale, clock)),
    guiding: shown.filter((a) => isGuiding(a.kind) || HARMFUL.has(a.kind)).map((a) => sharedBlock(a, exposures, scale, clock)).filter((block) => block.harm || isGuiding(block.kind)),
    ties: night.dithers.filter((cycle) => scale.shows({ startMs: cycle.beginMs, endMs: cycle.beginMs + 1 })).flatMap((cycle) => tiesOf(cycle, lanes, mountY, guidingEnd, scale, clock)),
  };
}
