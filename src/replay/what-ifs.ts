/**
 * The questions asked of every night: other dither counts, the companion in step, refocus together, a guide scope,
 * another start, another lead, other sub lengths.
 */
import { listed, ownValue } from '../model/index.js';
import { companionExposures, companionsInStep } from './companion-exposures.js';
import type { Course, TrainCourse } from './course.js';
import { exposureSettings, hasOneLength, withOtherLengths } from './exposure-settings.js';
import type { Question } from './question.js';
import { filterRows } from './filter-rows.js';
import { hastyTrains, idles, pauses, refocuses, SHORT_PATIENCE_S } from './remedies.js';
import { periodMs, slowestTrain, type Setting } from './settings.js';

const MOST_FRAMES = 12;
/** A train counts as the slower one from this difference in period on. */
const SLOWER_SHARE = 1.05;
const OFFSETS_MIN = [0, 2.5, 5] as const;

/** Every question that makes sense on the night. */
export function questionsOf(course: Course): Question[] {
  return eachOnce([
    ...ditherCounts(course),
    ...companionExposures(course),
    ...companionsInStep(course),
    ...focusAndGuiding(course),
    ...ditherWaits(course),
    ...patience(course),
    ...refocuses(course),
    ...pauses(course),
    ...idles(course),
    ...filterRows(course),
    ...startOffsets(course),
    ...slowerLead(course),
    ...subLengths(course),
  ]);
}

/** Half of a length may be in step as well: identical changes are asked once, in their first form. */
function eachOnce(questions: readonly Question[]): Question[] {
  const first = new Map<string, Question>();
  for (const question of questions) {
    const key = JSON.stringify(question.settings);
    if (!first.has(key)) first.set(key, question);
  }
  return [...first.values()];
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
            note: 'A guide scope cannot see flexure between itself and the telescopes; the replay leaves that out.',
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

/** Asked where a train that dithers wait for would begin an exposure just before one. */
function patience({ rules, trains }: Course): Question[] {
  // One that counts its own frames does not look at the dither.
  const hasty = trains.filter(
    ({ id }) => hastyTrains(rules).includes(id) && ownValue(rules.ownCount, id) === undefined,
  );
  if (hasty.length === 0) return [];
  const shortestMs = Math.min(...hasty.map(({ usualMs }) => usualMs));
  const seconds = shortestMs >= 2000 * SHORT_PATIENCE_S ? SHORT_PATIENCE_S : SHORT_PATIENCE_S / 2;
  return [
    {
      id: 'patience',
      group: 'dither-waits',
      title:
        `${listed(hasty.map(({ id }) => id))} ${hasty.length === 1 ? 'begins' : 'begin'} no exposure within ` +
        `${seconds} s of a dither`,
      short: `patience ${seconds} s`,
      settings: hasty.map(({ id }) => ({ key: 'patience', train: id, seconds })),
    },
  ];
}

function startOffsets({ trains }: Course): Question[] {
  const [pilot, ...others] = trains;
  if (pilot === undefined) return [];
  return others.flatMap((train) =>
    OFFSETS_MIN.filter((minutes) => Math.abs((train.startMs - pilot.startMs) / 60_000 - minutes) > 0.25).map(
      (minutes): Question => ({
        id: `start-offset-${train.id}-${minutes}`,
        group: 'start-offset',
        short: minutes === 0 ? `${train.id} with ${pilot.id}` : `${train.id} after ${minutes} min`,
        title:
          minutes === 0
            ? `${train.id} starts together with ${pilot.id}`
            : `${train.id} starts ${minutes} min after ${pilot.id}`,
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

const ASKED_NOTE =
  'Sky and read noise call for longer subs: the finding on sub length names the best one. The number of ' +
  'frames between two dithers stays the same.';
const UNASKED_NOTE =
  'Whether the sky allows it is another question: one interruption costs more with longer subs, and read ' +
  'noise matters more in shorter ones. The number of frames between two dithers stays the same.';

function subLengths({ trains }: Course): Question[] {
  const seconds = (train: TrainCourse, factor: number): number =>
    Math.max(1, Math.round((train.usualMs * factor) / 1000));
  const isAsked = ({ longerUpToMs, usualMs }: TrainCourse, factor: number): boolean =>
    factor > 1 && longerUpToMs !== null && longerUpToMs >= factor * usualMs;
  const noteOf = (own: readonly TrainCourse[], factor: number): string =>
    own.every((train) => isAsked(train, factor)) ? ASKED_NOTE : UNASKED_NOTE;
  const single = trains.flatMap((train): Question[] =>
    hasOneLength(train)
      ? [0.5, 2]
          .map((factor) => ({
            id: `sub-length-${train.id}-${seconds(train, factor)}`,
            group: 'sub-length' as const,
            note: noteOf([train], factor),
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
      : [0.5, 2].map((factor): Question => {
          const question: Question = {
            id: `sub-length-all-${factor === 2 ? 'double' : 'half'}`,
            group: 'sub-length',
            note: noteOf(trains, factor),
            title: `Subs ${factor === 2 ? 'twice' : 'half'} as long on every train`,
            short: `all subs ${factor === 2 ? 'double' : 'half'}`,
            settings: trains.flatMap((t) => exposureSettings(t, seconds(t, factor))),
          };
          return trains.reduce(withOtherLengths, question);
        });
  return [...single, ...all];
}
