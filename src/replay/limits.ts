/**
 * What may be advised: enough positions for the dithers to average out sensor patterns, subs near the length found good
 * for the sky and within flexure and saturation limits, a start after guiding has proved stable.
 */
import {
  DITHER_PLACES,
  EXPOSURE_REACH,
  LEAST_OFFSET_MIN,
  SOONER_MIN,
  lackingPlaces,
  listed,
  sum,
  type DitherPlaces,
  type WhatIf,
} from '../model/index.js';
import type { Course, TrainCourse } from './course.js';
import { usualMsOf } from './exposure-settings.js';
import type { Setting } from './settings.js';

/** If the night itself has fewer, a deficit of this size is chance. */
const CHANCE_PLACES = 1;
/** Lengths this close share darks, ms. */
const SAME_LENGTH_MS = 500;

export type Bounds = Pick<WhatIf, 'outside' | 'newDarks'>;

/**
 * Where settings are outside the limits, and which darks they need.
 *
 * @param places what the night has under the settings
 * @param asItWas what it has by its own rules: fewer than the dozen there are no fault of the settings
 */
export function boundsOf(
  course: Course,
  settings: readonly Setting[],
  places: readonly DitherPlaces[],
  asItWas: readonly DitherPlaces[],
): Bounds {
  const subs = settings.flatMap((s): SubLength[] => {
    const train = s.key === 'exposure' && course.trains.find((t) => t.id === s.train);
    return train ? [{ train, seconds: s.seconds, ...(s.filter === undefined ? {} : { filter: s.filter }) }] : [];
  });
  const outside = [
    ...tooFewPlaces(places, asItWas),
    ...farFromUsual(subs),
    ...subs.flatMap((sub) => tooLong(sub)),
    ...settings.flatMap((s) => (s.key === 'start-offset' ? startOutside(course, s.train, s.minutes) : [])),
  ];
  const newDarks = subs
    .filter(({ train, seconds }) => needsDarks(train, seconds))
    .map(({ train, seconds }) => `${seconds} s on ${train.id}`);
  return { outside: [...new Set(outside)], newDarks: [...new Set(newDarks)] };
}

function startOutside({ trains: [pilot, ...companions] }: Course, id: string, minutes: number): string[] {
  if (minutes < LEAST_OFFSET_MIN) return [`starts ${id} less than ${LEAST_OFFSET_MIN} min after the pilot`];
  const own = companions.find((t) => t.id === id);
  const soonerMin = pilot && own ? (own.startMs - pilot.startMs) / 60_000 - minutes : 0;
  return soonerMin < SOONER_MIN ? [`starts ${id} hardly sooner than it did`] : [];
}

/** Whether a train has taken no frames of a length on this night, lights or darks. */
export function needsDarks({ darkLengthsMs }: TrainCourse, seconds: number): boolean {
  return !darkLengthsMs.some((ms) => Math.abs(ms - seconds * 1000) <= SAME_LENGTH_MS);
}

function tooFewPlaces(places: readonly DitherPlaces[], asItWas: readonly DitherPlaces[]): string[] {
  const short = asItWas
    .map((own) => ({
      ...own,
      before: Math.round(own.places),
      places: Math.round(sum(places.filter((p) => isSame(p, own)).map((p) => p.places))),
    }))
    .filter(
      ({ before, places: left }) =>
        left < DITHER_PLACES && left < (before >= DITHER_PLACES ? before : before - CHANCE_PLACES),
    );
  return short.length === 0 ? [] : [`leaves ${lackingPlaces(short)}`];
}

function isSame(a: DitherPlaces, b: DitherPlaces): boolean {
  return a.train === b.train && a.target === b.target && a.filter === b.filter;
}

/** A length that a rule gives a train's subs, through one filter or all. */
interface SubLength {
  readonly train: TrainCourse;
  readonly seconds: number;
  readonly filter?: string;
}

/** Subs so far from the usual length that the replay's minutes are insufficient, in one clause for all trains. */
function farFromUsual(subs: readonly SubLength[]): string[] {
  const far = subs.filter((sub) => {
    const { longerUpToMs } = sub.train;
    const isAsked = ratioOf(sub) > 1 && longerUpToMs !== null && sub.seconds * 1000 <= longerUpToMs;
    return !isAsked && Math.abs(Math.log(ratioOf(sub))) > Math.log(EXPOSURE_REACH) + 1e-9;
  });
  const whose = [...new Set(far.map(({ train }) => `${train.id}’s`))];
  return whose.length === 0 ? [] : [`changes ${listed(whose)} subs by more than half`];
}

/** Relative to the usual length. */
function ratioOf({ train, seconds, filter }: SubLength): number {
  return (seconds * 1000) / usualMsOf(train, filter);
}

function tooLong(sub: SubLength): string[] {
  const { id, longestSub } = sub.train;
  return longestSub && ratioOf(sub) > 1 && sub.seconds * 1000 > longestSub.ms ? [`on ${id} ${longestSub.why}`] : [];
}
