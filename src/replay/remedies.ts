/**
 * Remedies for a fault of the night rather than other rules: refocuses skipped, a slow pause shortened. Asked so that
 * the findings know the gain of following them; excluded from combinations.
 */
import { listed, ownValue, sum } from '../model/index.js';
import type { Course, ReplayRules } from './course.js';
import type { Question } from './question.js';
import type { Setting } from './settings.js';

/** A train begins no exposure this shortly before a dither, s: about the coordination time of the computers. */
export const SHORT_PATIENCE_S = 60;
/** Minimum number of unnecessary refocuses to ask about. */
const SEVERAL = 2;
/** A slow pause: this multiple of the quickest train’s, and this much more, ms. Common practice, no source. */
const SLOW_RATIO = 2;
const SLOWER_MS = 3000;
/** Readout and saving time of a modern camera, ms. Common practice, no source. */
const USUAL_PAUSE_MS = 5000;

/** Asked where several refocuses could have been left out. */
export function refocuses({ trains }: Course): Question[] {
  const needless = trains.filter(({ focusRuns }) => focusRuns.filter((r) => r.why === 'needless').length >= SEVERAL);
  // If trains refocus simultaneously, the one that skips its runs waits for the other's.
  const together: Question[] =
    needless.length < 2
      ? []
      : [
          {
            id: 'refocus-together-needed',
            group: 'refocus',
            title: `${listed(needless.map(({ id }) => id))} refocus only when their stars have grown`,
            short: 'all: needed',
            settings: needless.map(({ id }) => ({ key: 'refocus', train: id, how: 'needed' })),
            apart: true,
          },
        ];
  const alone = trains.flatMap(({ id, focusRuns }): Question[] => {
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
  return [...alone, ...together];
}

/** Total idle time worth a question, ms. */
const IDLE_MS = 300_000;

/** Asked if one train, or several simultaneously, did nothing for an unlogged reason. */
export function idles({ trains }: Course): Question[] {
  const idle = trains.filter(
    ({ absences }) =>
      sum(absences.map(({ isHold, dueMs, untilMs }) => (isHold === true ? 0 : untilMs - dueMs))) >= IDLE_MS,
  );
  const ask = (id: string, own: readonly string[]): Question => ({
    id,
    group: 'idle',
    title: `${listed(own)} ${own.length === 1 ? 'is' : 'are'} never idle without a logged reason`,
    short: `${own.length === 1 ? own.join('') : 'all'} never idle`,
    settings: own.map((train) => ({ key: 'idle', train, how: 'none' })),
    apart: true,
  });
  return [
    ...idle.map(({ id }) => ask(`idle-${id}-none`, [id])),
    ...(idle.length > 1
      ? [
          ask(
            'idle-together',
            idle.map(({ id }) => id),
          ),
        ]
      : []),
  ];
}

/** Trains that dithers wait for, and that would begin an exposure shortly before one. */
export function hastyTrains({ ditherEvery, awaited, lead, patienceMs }: ReplayRules): string[] {
  if (ditherEvery === null) return [];
  return awaited.filter((train) => train !== lead && (ownValue(patienceMs, train) ?? 0) < SHORT_PATIENCE_S * 1000);
}

/** Asked if a train takes much longer than another from one exposure to the next, or a single one longer than usual. */
export function pauses({ trains, rules }: Course): Question[] {
  const hasty = hastyTrains(rules);
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
        // It changes when frames end: whether one more is begun before a dither must be settled too.
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
