/** What a search goes through: slots one after another, and what may be done in each. */
import type { Board } from './board.js';

/** A slot, and whether the mount comes to its target at its begin, stays on it, or may do either, or rest. */
export interface Place {
  readonly slot: number;
  readonly is: 'begin' | 'stay' | 'free';
}

/** A target's board, and where its lines begin among those of all boards. */
export interface Field {
  readonly board: Board;
  readonly offset: number;
}

/** What is done in a slot: an own choice of a board; `null` for rest. */
export type Deed = { readonly field: number; readonly choice: number } | null;

export interface Space {
  readonly fields: readonly Field[];
  readonly places: readonly Place[];
  /** Hours that each line lacks, board after board. */
  readonly lacking: Float64Array;
}

/** Slots from `begin` up to `end`, which is not among them. */
export interface Span {
  readonly begin: number;
  readonly end: number;
}

/** Visits to one target, one after another. */
export function visitsSpace(board: Board, visits: readonly Span[]): Space {
  const places = visits.flatMap(({ begin, end }) =>
    Array.from({ length: end - begin }, (_, at): Place => ({ slot: begin + at, is: at === 0 ? 'begin' : 'stay' })),
  );
  return { fields: [{ board, offset: 0 }], places, lacking: board.lacking };
}

/** The whole night with all targets. */
export function nightSpace(boards: readonly Board[], slots: number): Space {
  let offset = 0;
  const fields = boards.map((board): Field => {
    const field = { board, offset };
    offset += board.lines.length;
    return field;
  });
  return {
    fields,
    places: Array.from({ length: slots }, (_, slot): Place => ({ slot, is: 'free' })),
    lacking: Float64Array.from(boards.flatMap(({ lacking }) => [...lacking])),
  };
}

/** The kind of change with which a deed begins. */
export function kindOf({ fields }: Space, { is }: Place, before: Deed, deed: NonNullable<Deed>): number {
  const { board } = fields[deed.field]!;
  return is === 'begin' || before?.field !== deed.field
    ? board.kinds - 1
    : board.change[before.choice * board.choices.length + deed.choice]!;
}

/** The value of a way within the limits: lines are used up as they are filled. */
export function worthWithin(space: Space, way: readonly Deed[]): number {
  const left = Float64Array.from(space.lacking);
  let value = 0;
  let before: Deed = null;
  space.places.forEach((place, i) => {
    const deed = way[i] ?? null;
    if (deed) {
      const { board, offset } = space.fields[deed.field]!;
      const { choices, trains, kinds, lineOf, worth, hours, effort } = board;
      const cell = place.slot * choices.length + deed.choice;
      const at = cell * kinds + kindOf(space, place, before, deed);
      value -= effort[at]!;
      for (let train = 0; train < trains; train++) {
        const own = lineOf[deed.choice * trains + train]!;
        if (own < 0) continue;
        const taken = Math.min(left[offset + own]!, hours[at * trains + train]!);
        left[offset + own] = left[offset + own]! - taken;
        value += worth[cell * trains + train]! * taken;
      }
    }
    before = deed;
  });
  return value;
}
