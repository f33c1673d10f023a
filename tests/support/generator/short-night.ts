/** A short night without a mishap, for tests that spoil it. */
import type { Scenario } from './scenario.js';
import { CIERZO_HILL, HERON, TARGETS, WREN } from './scenarios.js';

/** Both trains on NGC 281 in Ha, all invented; what a test needs otherwise replaces that. */
export function shortNight(what: Partial<Scenario> & Pick<Scenario, 'begin' | 'end'>, seconds = 180): Scenario {
  return {
    name: 'short',
    seed: 5,
    site: CIERZO_HILL,
    trains: [HERON, WREN].map((t) => ({ ...t, plan: [{ target: 'NGC 281', filter: 'Ha', seconds, count: 60 }] })),
    targets: [TARGETS.ngc281],
    ditherEvery: 3,
    starLost: [],
    clouds: [],
    guidingEverySeconds: 0,
    guidingSigmaArcsec: 0.6,
    ...what,
  };
}
