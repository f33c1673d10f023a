import type { Train } from '../../model/index.js';

/** Pilots are above the mount, companions below; of companions alone the first is above. */
export function sidesOf(trains: readonly Train[]): {
  readonly above: readonly Train[];
  readonly below: readonly Train[];
} {
  const pilots = trains.filter((train) => train.role === 'pilot');
  const above = pilots.length > 0 ? pilots : trains.slice(0, 1);
  return { above, below: trains.filter((train) => !above.includes(train)) };
}
