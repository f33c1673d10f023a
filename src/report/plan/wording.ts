/** A plan's blocks in words, for page and text alike. */
import {
  clip,
  clockOf,
  counted,
  decimal,
  groupBy,
  listed,
  type Plan,
  type PlannedBlock,
  type PlannedNight,
  type LeftReason,
  type RestReason,
  type TrainInBlock,
} from '../../model/index.js';

import { dateText } from '../progress/dates.js';
import { freeClause } from './free.js';

const MINUTE_MS = 60_000;
/** A smaller excess over a goal is not mentioned. */
const LEAST_BEYOND_HOURS = 0.05;

/** How a plan's instants are written: local time, or hours since darkness if the site is left out. */
export type TimeText = (atMs: number) => string;

export function timeOf({ zone }: Plan): TimeText {
  const clock = clockOf(zone ?? 'UTC');
  return zone === null ? (atMs) => `+${clock.time(atMs)}` : (atMs) => clock.time(atMs);
}

/** `times in Europe/Madrid (UTC+1)`. */
export function zoneText({ zone, nights }: Plan): string {
  if (zone === null) return 'times since the start of darkness';
  const window = nights.find((night) => night.window !== null)?.window;
  return window ? `times in ${zone} (${clockOf(zone).offset(window.startMs)})` : `times in ${zone}`;
}

/** `18:45–21:15`. */
export function spanOf({ span }: Pick<PlannedBlock, 'span'>, time: TimeText): string {
  return `${time(span.startMs)}–${time(span.endMs)}`;
}

const RESTS: Readonly<Record<RestReason, string>> = {
  'no-goal': 'no unmet goal of this target asks for it',
  sky: 'none of its filters for this target can be taken now',
  'out-of-step': 'its subs would make the others wait',
  short: 'too short a stretch for a change',
};

/** `Ha, 18 × 420 s`, or why the train is idle. */
export function exposuresOf(train: TrainInBlock): string {
  return train.state === 'rests'
    ? `rests: ${RESTS[train.why]}`
    : `${train.filter}, ${train.subs} × ${decimal(train.subSeconds, 0)} s`;
}

/** `focus at 18:45, 20:25`; a new length is marked as such. */
export function notesOf(train: TrainInBlock, time: TimeText): string[] {
  if (train.state === 'rests') return [];
  return [
    ...(train.refocusMs.length > 0 ? [`focus at ${train.refocusMs.map(time).join(', ')}`] : []),
    ...beyondText(train),
    ...(train.isUsualLength ? [] : ['a new filter on this train: check sub length and darks']),
  ];
}

function beyondText({ addsHours, beyondHours }: Extract<TrainInBlock, { state: 'exposes' }>): string[] {
  if (beyondHours < LEAST_BEYOND_HOURS) return [];
  return [
    addsHours < LEAST_BEYOND_HOURS ? 'extra depth, beyond the goal' : `${decimal(beyondHours, 1)} h beyond the goal`,
  ];
}

/** `after 2 subs on heron and 3 subs on wren, once all are idle`, `every 14.5 min`, and who waits. */
export function ditherOf({ dither }: PlannedBlock): string[] {
  if (!dither) return [];
  const counts = Object.entries(dither.subs);
  const waits = Object.entries(dither.waitMs).filter(([, ms]) => ms >= MINUTE_MS / 6);
  const [only] = counts;
  const isSame = counts.every(([, count]) => count === only?.[1]);
  return [
    counts.length === 1 && only
      ? `after ${only[1] === 1 ? 'each sub' : `every ${only[1]} subs`} of ${only[0]}`
      : isSame && only
        ? `after ${counted(only[1], 'sub')} on each train, once all are idle`
        : `after ${listed(counts.map(([train, count]) => `${counted(count, 'sub')} on ${train}`))}, once all are idle`,
    `every ${decimal(dither.everyMs / MINUTE_MS, 1)} min`,
    ...waits.map(([train, ms]) => `${train} waits ${decimal(ms / 1000, 0)} s`),
  ];
}

function altitudeText({ begin, end }: NonNullable<PlannedBlock['altitudeDeg']>): string {
  const [from, to] = [begin, end].map((deg) => `${decimal(deg, 0)}°`);
  return from === to ? `altitude ${from}` : `altitude ${from} to ${to}`;
}

/** `3.2 h`; a goal without remaining hours is marked as reached. */
export function stillNeeded(hours: number): string {
  return hours < 0.05 ? 'goal reached' : `${decimal(hours, 1)} h`;
}

/** `62° to 81°`, `Moon 74° away`, `meridian 21:40: flip`. */
export function skyOf(block: PlannedBlock, { moonUp }: PlannedNight, time: TimeText): string[] {
  const { span, altitudeDeg, moonSeparationDeg, transitMs } = block;
  const moon = clip(moonUp, span)[0];
  const rises = moon !== undefined && moon.startMs > span.startMs ? ` from ${time(moon.startMs)} on` : '';
  const sets = moon !== undefined && moon.endMs < span.endMs ? ` until ${time(moon.endMs)}` : '';
  return [
    ...(altitudeDeg ? [altitudeText(altitudeDeg)] : []),
    moonSeparationDeg === null ? 'no Moon' : `Moon ${decimal(moonSeparationDeg, 0)}° away${rises}${sets}`,
    ...(transitMs === null ? [] : [`meridian at ${time(transitMs)}: flip, if the mount needs it`]),
  ];
}

/**
 * One block in a line: `18:45 NGC 281, heron OIII, wren Ha`.
 *
 * @param space between a train and its filter: on a page one at which no line ends
 */
export function briefOf(block: PlannedBlock, time: TimeText, space = ' '): string {
  const trains = block.trains.flatMap((train) =>
    train.state === 'rests' ? [] : [`${train.train}${space}${train.filter}`],
  );
  return `${spanOf(block, time)} ${block.target}, ${trains.join(', ')}`;
}

const LEFT: Readonly<Record<LeftReason, string>> = {
  little: 'too little for a filter change',
  'no-place': 'its coordinates are not known: give them in goals.yaml',
  'never-up': 'not above its limit in darkness on any of these nights',
  'never-dark': 'it does not get dark on any of these nights',
  'no-train': 'no train that the goal is for has that filter',
  sky: 'Moon or twilight prevents it on all of these nights',
  effort: 'the free time is too short to be worth slewing to it',
  'moon-effort': 'the Moon leaves too little of these nights to be worth slewing to it',
  time: 'these nights are not long enough for all',
};

export const LEFT_CAPTION = 'What these nights leave undone, and why';

export function leftText(why: LeftReason): string {
  return LEFT[why];
}

/** The nights after the first up to the last with exposures, and the text for those after it. */
export function comingOf({ nights, left }: Plan): {
  readonly nights: readonly PlannedNight[];
  readonly after: string | null;
} {
  const coming = nights.slice(1);
  const last = coming.findLastIndex((night) => night.blocks.length > 0);
  const rest = coming[last + 1];
  return {
    nights: coming.slice(0, last + 1),
    after: rest
      ? `From ${dateText(rest.date)} on nothing is planned: ` +
        (left.length > 0 ? 'what remains, and why, is listed below.' : 'every goal is reached.')
      : null,
  };
}

/** The purpose of the first night, in a sentence. */
export function summaryOf(plan: Plan): string {
  const night = plan.nights[0];
  if (!night || night.blocks.length === 0) return nothingText(plan);
  const adds = night.lines.reduce((sum, line) => sum + line.addsHours, 0);
  const visits = [...groupBy(night.blocks, (block) => block.target)].map(([target, blocks]) => {
    const filters = blocks.flatMap(({ trains }) => trains.flatMap((one) => (one.state === 'rests' ? [] : one.filter)));
    return `${target} in ${listed([...new Set(filters)])}`;
  });
  const exposing = new Set(
    night.blocks.flatMap(({ trains }) => trains.flatMap((one) => (one.state === 'rests' ? [] : one.train))),
  );
  const on = trainsText([...exposing], plan.trains.length);
  return `${listed(visits)}: ${decimal(adds, 1)} h on ${on}, if the night is clear.`;
}

/** `heron`, `heron and wren together` where another rests, `all trains together`. */
function trainsText(exposing: readonly string[], count: number): string {
  if (exposing.length === count && count > 1) return `${count === 2 ? 'both' : 'all'} trains together`;
  return exposing.length === 1 ? listed(exposing) : `${listed(exposing)} together`;
}

const NOTHING_FITS = 'nothing that is still needed can be taken, or not for long enough';

/** Why there is nothing to expose on the first night. */
export function nothingText({ nights, left }: Plan): string {
  if (nights[0]?.window === null) return 'It does not get dark on this night.';
  if (left.length === 0 && nights.every(({ lines }) => lines.length === 0))
    return 'Nothing is needed: every goal is reached, or no target has one.';
  return `Nothing is planned for this night: ${(nights[0]?.free ?? []).map(freeClause).join('; ') || NOTHING_FITS}.`;
}
