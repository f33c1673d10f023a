import { seededRandom } from '../../src/outlook/random.js';
import type { PlanQuestion } from '../../src/plan/index.js';
import { HERON, question, target, WREN } from './fake-nights.js';

/** Two targets on two trains of unlike subs, with a Moon that rises or sets, targets that rise or set, and flips. */
export function smallNight(seed: number, slots: number): PlanQuestion {
  const random = seededRandom(seed);
  const whole = (most: number): number => Math.floor(random() * most);
  const targets = ['A', 'B'].map((name) =>
    target(name, { L: 0.3 + 3 * random(), Ha: 0.3 + 3 * random() }, { priority: 0.5 + random() }),
  );
  const turn = 1 + whole(slots - 1);
  const rising = [turn, slots] as const;
  const setting = [0, turn] as const;
  const trains = [HERON, WREN].map((train) => ({
    ...train,
    apertureMm: 80 + whole(80),
    keptShare: 0.7 + 0.3 * random(),
    subSeconds: new Map(['L', 'Ha'].map((filter) => [filter, [120, 300, 600][whole(3)] ?? 300] as const)),
  }));
  const night = {
    slots,
    moon: random() < 0.5 ? ([whole(slots), slots] as const) : ([0, whole(slots)] as const),
    up: [random() < 0.5 ? ([0, slots] as const) : setting, random() < 0.5 ? ([0, slots] as const) : rising],
    transits: [whole(2 * slots), whole(2 * slots)],
  };
  return question(targets, [night], { trains });
}
