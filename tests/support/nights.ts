/** The invented nights by their names, each made once. */
import type { Night } from '../../src/model/index.js';
import { DEFAULT_RULES } from '../../src/model/index.js';
import { keeper } from './kept.js';
import { nightOf } from './nights/night-of.js';
import { COUNTED, NIGHTS } from './nights/scenarios.js';
import { inFull } from './runs.js';

export { CIERZO_HILL, NGC_281 } from './nights/scenarios.js';
export const RULES = DEFAULT_RULES;

/** The names of the nights, in the order a gallery shows them. */
export const NIGHT_NAMES = Object.keys(NIGHTS);

/** Of these the ones that stand for no more than their length: their replay and their pages take as long as all others’. */
const LONG: readonly string[] = ['three-trains', 'fourteen-hours'];

/** The names that `npm test` goes through where each night is replayed; all of them in `npm run thorough`. */
export const USUAL_NAMES = inFull(
  NIGHT_NAMES,
  NIGHT_NAMES.filter((name) => !LONG.includes(name)),
);

/** Names of the nights that stand for their number of frames. */
export const COUNTED_NAMES = Object.keys(COUNTED);

/** One of the named nights; made once. Whoever changes something makes a copy. */
export const namedNight = keeper('night', (name): Night => {
  const named = NIGHTS[name] ?? COUNTED[name];
  if (!named) throw new RangeError(`no invented night is called ${name}; there are ${NIGHT_NAMES.join(', ')}`);
  return nightOf(named);
});
