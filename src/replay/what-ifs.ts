/**
 * The questions asked of every night: other dither counts, the companion in step, refocus together, a guide scope,
 * another start, another lead, other sub lengths.
 */
import { listed, ownValue, type WhatIfGroup } from '../model/index.js';
import type { Course, TrainCourse } from './course.js';
import { exposureSettings, hasOneLength, withOtherLengths } from './exposure-settings.js';
import { periodMs, slowestTrain, type Setting } from './settings.js';

/** A what-if before it is measured. */
export interface Question {
  readonly id: string;
  readonly group: WhatIfGroup;
  readonly title: string;
  readonly short: string;
  readonly settings: readonly Setting[];
  readonly note?: string;
  readonly handsOn?: boolean;
  /** A remedy for one fault rather than a rule: it enters no combination. */
  readonly apart?: boolean;
}

const MOST_FRAMES = 12;
/** A companion's exposure is not asked to change by more than this factor. */
const REACH = 2;
/** A train that waits this long for a dither meets one though readouts vary, ms. */
const SLACK_MS = 10_000;
/** A train is called the slower one from this much more of a period on. */
const SLOWER_SHARE = 1.05;
/** Companion exposures offered, nearest to its own first. */
const EXPOSURES = 4;
const OFFSETS_MIN = [0, 2.5, 5] as const;
/** A train begins no exposure so shortly before a dither, s: about as long as the computers need to agree. */
const SHORT_PATIENCE_S = 60;
/** Refocuses that could be left out are asked about from so many on. */
const SEVERAL = 2;
/** A slow pause: so many times the quickest train’s, and by so much more, ms. Common practice, no source. */
const SLOW_RATIO = 2;
const SLOWER_MS = 3000;
/** Reading out and saving of a modern camera, ms. Common practice, no source. */
const USUAL_PAUSE_MS = 5000;

/** Every question that makes sense on the night. */
export function questionsOf(course: Course): Question[] {
  return [
    ...ditherCounts(course),
    ...companionExposures(course),
    ...focusAndGuiding(course),
    ...ditherWaits(course),
    ...refocuses(course),
    ...pauses(course),
    ...startOffsets(course),
    ...slowerLead(course),
    ...subLengths(course),
  ];
}

function ditherCounts({ rules }: Course): Question[] {
  return Array.from({ length: MOST_FRAMES }, (_, i): Question => {
    const frames = i + 1;
    const isNow = rules.ditherEvery === frames;
    return {
      id: `dither-every-${frames}`,
      group: 'dither-every',
      title: `Dither every ${frames === 1 ? 'frame' : `${frames} frames`}${isNow ? ', as it was' : ''}`,
      short: `dither every ${frames}`,
      settings: [{ key: 'dither-every', frames }],
    };
  });
}

/** Exposures with which a companion's frames fill the time between two dithers. */
function companionExposures(course: Course): Question[] {
  const { rules, trains } = course;
  const lead = trains.find((t) => t.id === rules.lead);
  if (!lead || !hasOneLength(lead)) return [];
  const every = rules.ditherEvery ?? 1;
  const leadSeconds = lead.usualMs / 1000;
  const spanMs = every * periodMs(course, rules, lead.id);
  return trains.flatMap((train): Question[] => {
    if (train === lead || !hasOneLength(train)) return [];
    const nowMs = train.usualMs;
    // A train that waits is best ready a moment before the lead; one that does not would begin another exposure then.
    const waits =
      ownValue(rules.ownCount, train.id) !== undefined || (ownValue(rules.patienceMs, train.id) ?? 0) >= SLACK_MS;
    const fit = (seconds: number): number => (waits ? Math.floor(seconds) : Math.ceil(seconds) + 1);
    const fitting = Array.from({ length: 4 * every }, (_, i) => i + 1).map((count) => ({
      count,
      seconds: count === every ? leadSeconds : fit((spanMs / count - train.turnarounds.typicalMs) / 1000),
    }));
    const distance = (seconds: number): number => Math.abs(Math.log((seconds * 1000) / nowMs));
    return fitting
      .filter(
        ({ seconds }) =>
          seconds >= 1 && distance(seconds) <= Math.log(REACH) && Math.abs(seconds * 1000 - nowMs) >= 1500,
      )
      .sort((a, b) => distance(a.seconds) - distance(b.seconds))
      .slice(0, EXPOSURES)
      .map(({ count, seconds }) => ({
        id: `companion-exposure-${train.id}-${seconds}`,
        group: 'companion-exposure' as const,
        title:
          count === every
            ? `${train.id} exposes ${seconds} s, as ${lead.id} does`
            : `${train.id} exposes ${seconds} s, ${count} to ${lead.id}’s ${every}`,
        short: `${train.id} ${seconds} s`,
        settings: exposureSettings(train, seconds),
      }))
      .map((question) => withOtherLengths(question, train));
  });
}

function focusAndGuiding({ rules, trains }: Course): Question[] {
  if (trains.length < 2) return [];
  const runs = trains.flatMap((t) => t.focusRuns);
  const together: Question[] =
    runs.length === 0 || rules.ditherEvery === null
      ? []
      : [
          {
            id: 'focus-together',
            group: 'focus',
            title: 'Refocus together, at the next dither',
            short: 'refocus together',
            settings: [{ key: 'focus', how: 'together' }],
          },
        ];
  const scope: Question[] =
    rules.guiding === 'guide-scope' || !runs.some((r) => r.pausesGuiding)
      ? []
      : [
          {
            id: 'guide-scope',
            group: 'guiding',
            title: 'Guide with a separate guide scope',
            short: 'guide scope',
            settings: [{ key: 'guiding', how: 'guide-scope' }],
            handsOn: true,
            note:
              'A guide scope sees none of the flexure between itself and the telescopes, which the replay does ' +
              'not know either.',
          },
        ];
  return [...together, ...scope];
}

/** Asked where dithers go through a train's open shutter. */
function ditherWaits(course: Course): Question[] {
  const { rules, trains } = course;
  const through = trains.filter((t) => !rules.awaited.includes(t.id)).map((t) => t.id);
  if (through.length === 0 || rules.ditherEvery === null) return [];
  const whole = Math.ceil(Math.max(...through.map((id) => periodMs(course, rules, id))) / 1000);
  return [0, SHORT_PATIENCE_S, whole].map(
    (seconds): Question => ({
      id: seconds === 0 ? 'dither-waits' : `dither-waits-${seconds}`,
      group: 'dither-waits',
      title:
        `Dithers wait for ${listed(through)}` +
        (seconds === 0
          ? ''
          : `, which ${through.length === 1 ? 'begins' : 'begin'} no exposure within ${seconds} s of one`),
      short: seconds === 0 ? 'dithers wait' : `wait, ${seconds} s`,
      settings: [
        { key: 'dither-waits', waits: true },
        ...through.flatMap((train): Setting[] => (seconds === 0 ? [] : [{ key: 'patience', train, seconds }])),
      ],
    }),
  );
}

/** Asked where several refocuses could have been left out. */
function refocuses({ trains }: Course): Question[] {
  return trains.flatMap(({ id, focusRuns }): Question[] => {
    const count = (why: string): number => focusRuns.filter((run) => run.why === why).length;
    const ask = (how: 'needed' | 'offsets', title: string): Question => ({
      id: `refocus-${id}-${how}`,
      group: 'refocus',
      title,
      short: `${id}: ${how}`,
      settings: [{ key: 'refocus', train: id, how }],
      apart: true,
    });
    return [
      ...(count('needless') >= SEVERAL ? [ask('needed', `${id} refocuses only when its stars have grown`)] : []),
      ...(count('filter-change') >= SEVERAL
        ? [ask('offsets', `${id} changes filters by offsets, without a refocus`)]
        : []),
    ];
  });
}

/** Asked where a train takes much longer than another from one exposure to the next, or alone longer than is usual. */
function pauses({ trains, rules }: Course): Question[] {
  const hasty =
    rules.ditherEvery === null
      ? []
      : rules.awaited.filter(
          (train) => train !== rules.lead && (ownValue(rules.patienceMs, train) ?? 0) < SHORT_PATIENCE_S * 1000,
        );
  const quickestMs = Math.min(...trains.map((t) => t.turnarounds.typicalMs));
  return trains.flatMap(({ id, turnarounds: { typicalMs } }): Question[] => {
    const isSlow =
      trains.length > 1
        ? typicalMs >= SLOW_RATIO * quickestMs && typicalMs - quickestMs >= SLOWER_MS
        : typicalMs >= 2 * USUAL_PAUSE_MS;
    if (!isSlow && typicalMs < 2 * USUAL_PAUSE_MS) return [];
    const seconds = Number(((isSlow && trains.length > 1 ? quickestMs : USUAL_PAUSE_MS) / 1000).toFixed(1));
    return [
      {
        id: `pause-${id}`,
        group: 'pause',
        // Where frames end changes with it: whether one more is begun before a dither must be settled too.
        title:
          `${id} takes ${seconds} s from one exposure to the next` +
          (hasty.length === 0
            ? ''
            : `, and ${listed(hasty)} ${hasty.length === 1 ? 'begins' : 'begin'} no exposure within ` +
              `${SHORT_PATIENCE_S} s of a dither`),
        short: `${id} ${seconds} s`,
        settings: [
          { key: 'pause', train: id, seconds },
          ...hasty.map((train): Setting => ({ key: 'patience', train, seconds: SHORT_PATIENCE_S })),
        ],
        apart: true,
      },
    ];
  });
}

function startOffsets({ trains }: Course): Question[] {
  const pilot = trains[0];
  return trains.slice(1).flatMap((train) =>
    OFFSETS_MIN.filter(
      (minutes) => pilot !== undefined && Math.abs((train.startMs - pilot.startMs) / 60_000 - minutes) > 0.25,
    ).map(
      (minutes): Question => ({
        id: `start-offset-${train.id}-${minutes}`,
        group: 'start-offset',
        short: `${train.id} after ${minutes} min`,
        title:
          minutes === 0
            ? `${train.id} starts together with ${pilot?.id ?? ''}`
            : `${train.id} starts ${minutes} min after ${pilot?.id ?? ''}`,
        settings: [{ key: 'start-offset', train: train.id, minutes }],
      }),
    ),
  );
}

function slowerLead(course: Course): Question[] {
  const { rules, trains } = course;
  const slowest = slowestTrain(course, rules);
  if (
    trains.length < 2 ||
    rules.ditherEvery === null ||
    periodMs(course, rules, slowest) < SLOWER_SHARE * periodMs(course, rules, rules.lead)
  )
    return [];
  return [
    {
      id: 'dither-lead-slowest',
      group: 'dither-lead',
      title: `Dither only when ${slowest}, the slower train, ends`,
      short: `${slowest} leads`,
      settings: [{ key: 'dither-lead', train: slowest }],
    },
  ];
}

function subLengths({ trains }: Course): Question[] {
  const seconds = (train: TrainCourse, factor: number): number =>
    Math.max(1, Math.round((train.usualMs * factor) / 1000));
  const note =
    'Whether the sky allows it is another question: longer subs lose more to one interruption, shorter ones ' +
    'drown in read noise. The count to a dither stays.';
  const single = trains.flatMap((train): Question[] =>
    hasOneLength(train)
      ? [0.5, 2]
          .map((factor) => ({
            id: `sub-length-${train.id}-${seconds(train, factor)}`,
            group: 'sub-length' as const,
            note,
            title: `${train.id} exposes ${seconds(train, factor)} s instead of ${seconds(train, 1)} s`,
            short: `${train.id} ${seconds(train, factor)} s`,
            settings: exposureSettings(train, seconds(train, factor)),
          }))
          .map((question) => withOtherLengths(question, train))
      : [],
  );
  const all =
    trains.length < 2 || !trains.every(hasOneLength)
      ? []
      : [0.5, 2].map(
          (factor): Question => ({
            id: `sub-length-all-${factor === 2 ? 'double' : 'half'}`,
            group: 'sub-length',
            note,
            title: `Subs ${factor === 2 ? 'twice' : 'half'} as long on every train`,
            short: `all subs ${factor === 2 ? 'double' : 'half'}`,
            settings: trains.flatMap((t) => exposureSettings(t, seconds(t, factor))),
          }),
        );
  return [...single, ...all];
}
