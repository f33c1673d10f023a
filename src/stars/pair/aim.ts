/** The pointing of each frame, and the runs of frames between dithers. */
import type { Aim, RegisteredField, SensorSize } from '../../model/index.js';
import { centreOf, halfTurn, inverse, transform } from '../registration/index.js';

/** Facts needed for the pointing in addition to a frame's registration. */
export interface FrameFacts {
  readonly seconds: number;
  readonly fwhm: number | null;
  readonly elongation: number | null;
}

/** The pointings of a field's frames in chronological order; frames without facts are left out. */
export function aimsOf(
  field: RegisteredField,
  size: SensorSize,
  facts: ReadonlyMap<string, FrameFacts>,
): readonly Aim[] {
  const centre = centreOf(size);
  return field.frames
    .flatMap((frame): Aim[] => {
      const known = facts.get(frame.key);
      if (!known) return [];
      const looked = transform(inverse(frame.similarity), centre);
      const { rotation } = frame.similarity;
      return [
        {
          key: frame.key,
          startMs: frame.startMs,
          ...known,
          x: looked.x - centre.x,
          y: looked.y - centre.y,
          flipped: Math.abs(rotation) > 90,
          rotationDeg: halfTurn(rotation),
        },
      ];
    })
    .sort((a, b) => a.startMs - b.startMs || (a.key < b.key ? -1 : 1));
}

/** Midpoint of the exposure, milliseconds. */
export function middleMs(aim: Aim): number {
  return aim.startMs + 500 * aim.seconds;
}

/** Frames between one dither (or meridian flip) and the next, in chronological order. */
export function runsOf(aims: readonly Aim[], dithersMs: readonly number[]): readonly (readonly Aim[])[] {
  const moves = [...dithersMs].sort((a, b) => a - b);
  const runs: Aim[][] = [];
  let before: { readonly aim: Aim; readonly moves: number } | undefined;
  for (const aim of [...aims].sort((a, b) => a.startMs - b.startMs || (a.key < b.key ? -1 : 1))) {
    const done = moves.filter((ms) => ms <= middleMs(aim)).length;
    const run = runs.at(-1);
    if (run && before && before.moves === done && before.aim.flipped === aim.flipped) run.push(aim);
    else runs.push([aim]);
    before = { aim, moves: done };
  }
  return runs;
}

/** Larger steps between frames count as dithers if no log states them, px (common practice, no source). */
const LEAST_STEP_PX = 1;

/** The times of moves visible only in the stars: midway between two frames that step apart. */
export function movesSeen(aims: readonly Aim[]): readonly number[] {
  return aims.flatMap((aim, i) => {
    const before = aims[i - 1];
    if (!before || before.flipped !== aim.flipped) return [];
    const isMove = Math.hypot(aim.x - before.x, aim.y - before.y) > LEAST_STEP_PX;
    return isMove ? [(before.startMs + 1000 * before.seconds + aim.startMs) / 2] : [];
  });
}
