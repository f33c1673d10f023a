/** Another sub length, for a train whose filters may have separate lengths. */
import { groupBy, listed, median, sum } from '../model/index.js';
import type { TrainCourse } from './course.js';
import type { Setting } from './settings.js';

/** Minimum fraction of a train's frames with its usual exposure before other exposures are considered. */
const ONE_LENGTH_SHARE = 0.8;

/** A new usual length. Filters of another length keep theirs, so the others are set one by one. */
export function exposureSettings({ id, blocks, usualMs }: TrainCourse, seconds: number): Setting[] {
  if (blocks.every((b) => b.exposureMs === usualMs)) return [{ key: 'exposure', train: id, seconds }];
  const byFilter = groupBy(blocks, (b) => b.filter ?? '');
  return [...byFilter].flatMap(([filter, own]): Setting[] =>
    filter !== '' && own.every((b) => b.exposureMs === usualMs)
      ? [{ key: 'exposure', train: id, filter, seconds }]
      : [],
  );
}

/** Exposure of a train's median frame, or of that through one filter, ms. */
export function usualMsOf({ blocks, usualMs }: TrainCourse, filter: string | undefined): number {
  const own = filter === undefined ? [] : blocks.filter((b) => b.filter === filter);
  return own.length === 0
    ? usualMs
    : Math.round(median(own.flatMap(({ frames, exposureMs }) => Array<number>(frames).fill(exposureMs))));
}

/** The question with the filters named whose subs it leaves alone. */
export function withOtherLengths<Q extends { readonly title: string }>(
  question: Q,
  { blocks, usualMs }: TrainCourse,
): Q {
  const others = groupBy(
    blocks.filter((b) => b.exposureMs !== usualMs),
    (b) => b.filter ?? 'no filter',
  );
  if (others.size === 0) return question;
  const kept = [...others].map(
    ([filter, own]) =>
      `${filter} at ${listed([...new Set(own.map((b) => `${Number((b.exposureMs / 1000).toFixed(1))} s`))])}`,
  );
  return { ...question, title: `${question.title}; ${listed(kept)} ${kept.length === 1 ? 'stays' : 'stay'}` };
}

/** Whether nearly all of a train's frames have one exposure: only then can it be changed. */
export function hasOneLength(train: TrainCourse): boolean {
  const usualMs = train.usualMs;
  const all = sum(train.blocks.map((b) => b.frames));
  const usual = sum(train.blocks.filter((b) => b.exposureMs === usualMs).map((b) => b.frames));
  return usual >= ONE_LENGTH_SHARE * all && exposureSettings(train, usualMs / 1000).length > 0;
}
