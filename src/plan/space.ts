/** Visits to one target as the searches go through them: slot after slot. */
import type { Board } from './board.js';

/** Slots from `begin` up to `end`, which is not among them. */
export interface Span {
  readonly begin: number;
  readonly end: number;
}

/** A slot, and whether the mount comes to the target at its begin. */
export interface Place {
  readonly slot: number;
  readonly isBegin: boolean;
}

/** Own choices, place after place, and their value. */
export interface Played {
  readonly value: number;
  readonly way: readonly number[];
}

export function placesOf(visits: readonly Span[]): Place[] {
  return visits.flatMap(({ begin, end }) =>
    Array.from({ length: end - begin }, (_, at) => ({ slot: begin + at, isBegin: at === 0 })),
  );
}

/** The kind of change with which a choice begins. */
export function kindOf({ kinds, change, choices }: Board, isBegin: boolean, before: number, to: number): number {
  return isBegin ? kinds - 1 : change[before * choices.length + to]!;
}

/** A sequence within the limits: lines are used up as they are filled. */
export function play(board: Board, places: readonly Place[], way: readonly number[]): Played {
  const { choices, trains, kinds, lineOf, worth, hours, effort } = board;
  const left = Float64Array.from(board.lacking);
  let value = 0;
  let before = -1;
  places.forEach(({ slot, isBegin }, i) => {
    const to = way[i]!;
    const cell = slot * choices.length + to;
    const at = cell * kinds + kindOf(board, isBegin, before, to);
    value -= effort[at]!;
    for (let train = 0; train < trains; train++) {
      const line = lineOf[to * trains + train]!;
      if (line < 0) continue;
      const taken = Math.min(left[line]!, hours[at * trains + train]!);
      left[line] = left[line]! - taken;
      value += worth[cell * trains + train]! * taken;
    }
    before = to;
  });
  return { value, way };
}
