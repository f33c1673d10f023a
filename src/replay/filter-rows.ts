/**
 * Filters in rows: asked of trains whose wheel takes a part of the night. A remedy that enters no combination.
 */
import { listed, sum } from '../model/index.js';
import type { Course, TrainCourse } from './course.js';
import type { Question } from './question.js';
import { hastyTrains, SHORT_PATIENCE_S } from './remedies.js';
import { periodMs, type Setting } from './settings.js';

/** Filters in rows of a quarter of an hour still share a night evenly, ms; common practice, no source. */
const ROW_MS = 900_000;
/** Changes that rows would save are worth a question from this on, ms. */
const SAVED_MS = 300_000;

interface Rows {
  readonly id: string;
  readonly frames: number;
}

/** Each train with its filters in rows, and all of them: one alone may still wait for the other's wheel. */
export function filterRows(course: Course): Question[] {
  const own = course.trains.flatMap((train) => rowsOf(course, train));
  return [
    ...own.map((rows) => ask(`filter-row-${rows.id}`, [rows], course)),
    ...(own.length > 1 ? [ask('filter-rows', own, course)] : []),
  ];
}

function ask(id: string, own: readonly Rows[], { rules }: Course): Question {
  // It changes when frames end: whether one more is begun before a dither must be settled too.
  const hasty = hastyTrains(rules);
  return {
    id,
    group: 'filter-row',
    title:
      listed(own.map(({ id: train, frames }) => `${train} takes ${frames} frames through a filter before the next`)) +
      (hasty.length === 0
        ? ''
        : `, and ${listed(hasty)} ${hasty.length === 1 ? 'begins' : 'begin'} no exposure within ` +
          `${SHORT_PATIENCE_S} s of a dither`),
    short: own.length === 1 ? `${listed(own.map(({ id: train }) => train))} in rows` : 'all in rows',
    settings: [
      ...own.map(({ id: train, frames }): Setting => ({ key: 'filter-row', train, frames })),
      ...hasty.map((train): Setting => ({ key: 'patience', train, seconds: SHORT_PATIENCE_S })),
    ],
    apart: true,
  };
}

function rowsOf(course: Course, train: TrainCourse): Rows[] {
  const { rules } = course;
  const changes = train.blocks.filter(({ filterMs }) => filterMs > 0);
  const frames = sum(train.blocks.map((block) => block.frames));
  if (changes.length === 0 || frames === 0) return [];
  // Whole stretches between two dithers, where there are any.
  const stretch =
    rules.ditherEvery === null
      ? 1
      : Math.max(
          1,
          Math.round((rules.ditherEvery * periodMs(course, rules, rules.lead)) / periodMs(course, rules, train.id)),
        );
  const row = Math.ceil(Math.max(2, ROW_MS / train.usualMs) / stretch) * stretch;
  const savedMs = sum(changes.map(({ filterMs }) => filterMs)) * (1 - Math.min(1, frames / row / changes.length));
  return savedMs >= SAVED_MS ? [{ id: train.id, frames: row }] : [];
}
