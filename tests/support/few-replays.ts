/** Replays of few runs, for who reads their form and no figure. */
import { MOST_RUNS, replayAtMost } from '../../src/replay/compare.js';
import { inFull } from './runs.js';

/** What `npm test` makes a replay of, where a file of tests does not ask for more. */
const FEW = inFull(MOST_RUNS, 4);

let inThisFile = MOST_RUNS;

/** Before each file of tests: how true the figures are is asked by those that ask for {@link replayInFull}. */
export function replayInFew(): void {
  inThisFile = FEW;
  replayAtMost(FEW);
}

/** For a file of tests that reads figures of replays: as many runs as a user's replay has, to its end. */
export function replayInFull(): void {
  inThisFile = MOST_RUNS;
  replayAtMost(MOST_RUNS);
}

/** What a night that is kept for other files is known by, besides its name. */
export function replayRunsOfThisFile(): number {
  return inThisFile;
}

const bounds: { readonly runs: number }[] = [];
let usual = 0;

/**
 * Has every replay from now on made of so many runs at most.
 *
 * @returns what ends that; with the last one ended all is as it was, in whatever order they end
 */
export function fewReplays(runs: number): () => void {
  const own = { runs };
  const set = (): void => void replayAtMost(Math.min(usual, ...bounds.map((one) => one.runs)));
  if (bounds.length === 0) usual = replayAtMost(runs);
  bounds.push(own);
  set();
  return () => {
    bounds.splice(bounds.indexOf(own), 1);
    set();
  };
}
