/** Combines the stars measured by several sessions of one night. */
import { groupBy, type NightStars, type PairPointing, type TrainPointing } from '../model/index.js';

/** One session's stars, and the ids of its frames in the night. */
export interface SessionStars {
  readonly stars: NightStars | null;
  readonly ids: ReadonlyMap<string, string>;
}

/**
 * Joins measured stars. For a frame measured by two sessions the first is used; of the pointings of one train on one
 * target, and of the pairs, the one based on most data: registering across sessions would need the pixels.
 *
 * @param sessions the most trusted first
 * @returns `null` when no session measured any
 */
export function joinStars(sessions: readonly SessionStars[]): NightStars | null {
  const measured = sessions.flatMap(({ stars, ids }) => (stars ? [{ stars, ids }] : []));
  if (measured.length === 0) return null;
  const frames = measured.flatMap(({ stars, ids }) =>
    Object.entries(stars.frames).flatMap(([id, own]) => {
      const now = ids.get(id);
      return now === undefined ? [] : [[now, own] as const];
    }),
  );
  const pointings = measured.flatMap(({ stars, ids }) =>
    stars.pointings.flatMap((pointing): TrainPointing[] => {
      const reference = ids.get(pointing.reference);
      return reference === undefined ? [] : [{ ...pointing, reference }];
    }),
  );
  return {
    frames: Object.fromEntries(frames.reverse()),
    pointings: best(
      pointings,
      ({ train, target }) => JSON.stringify([train, target]),
      (p) => p.registered,
    ),
    pairs: best(
      measured.flatMap(({ stars }) => stars.pairs),
      ({ target, trains }: PairPointing) => JSON.stringify([target, trains]),
      (pair) => pair.matched,
    ),
    warnings: measured.flatMap(({ stars }) => stars.warnings),
  };
}

/** The item of the highest rank for each key; the first of equals. */
function best<T>(items: readonly T[], key: (item: T) => string, rank: (item: T) => number): T[] {
  return [...groupBy(items, key).values()].map((alike) => alike.reduce((a, b) => (rank(b) > rank(a) ? b : a)));
}
