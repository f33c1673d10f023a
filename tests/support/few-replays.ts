/** Replays of few runs, for who reads their form and no figure. */
import { replayAtMost } from '../../src/replay/compare.js';

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
