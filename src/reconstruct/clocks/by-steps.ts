/** Clocks determined only by the trains' stars: a companion that exposes independently of the mount. */
import { counted } from '../../model/index.js';
import type { Compared } from './notes.js';
import type { TrainStreams } from './streams.js';

/** How far a train's clock is ahead of the reference, from the steps of both trains' stars. */
export interface ClockOfSteps {
  readonly aheadMs: number;
  readonly uncertaintyMs: number;
  /** Moves of the mount recorded by both. */
  readonly moves: number;
}

/** The clock of a train's frames, determined from its stars if nothing else did. */
export function seenInSteps(
  clock: Compared,
  own: TrainStreams,
  bySteps: ReadonlyMap<string, ClockOfSteps> | undefined,
): Compared {
  const steps = bySteps?.get(own.train);
  const goesBy = own.log.length > 0 || own.sharedMs.size > 0 ? 'log' : 'headers';
  if (!steps || clock.isKnown || clock.jump || clock.source !== goesBy) return clock;
  const { second: _second, ...rest } = clock;
  const { aheadMs, uncertaintyMs, moves } = steps;
  return { ...rest, aheadMs, uncertaintyMs, isKnown: true, by: `the steps of its stars at ${counted(moves, 'move')}` };
}
