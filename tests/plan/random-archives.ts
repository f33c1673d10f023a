/** Questions of random archives: what is lacking, trains, Moon and hours above the limit, all invented from a seed. */
import { seededRandom } from '../../src/outlook/random.js';
import type { PlanQuestion, PlanTarget, PlanTrain } from '../../src/plan/index.js';
import { HERON, question, target, WREN, type FakeNight } from './fake-nights.js';

const FILTERS = ['L', 'R', 'G', 'B', 'Ha', 'OIII', 'SII'];
const THIRD: PlanTrain = { ...HERON, id: 'tern', pixelScaleArcsec: 2.4 };

/** Some goals nearly reached, some not begun; broadband and narrow bands, on one to three trains. */
export function randomArchive(seed: number): PlanQuestion {
  const random = seededRandom(seed);
  const whole = (most: number): number => Math.floor(random() * most);
  const trains = [HERON, WREN, THIRD].slice(0, [1, 2, 2, 2, 3][whole(5)]).map((train) => ({
    ...train,
    keptShare: 0.7 + 0.3 * random(),
    subSeconds: new Map(FILTERS.map((filter) => [filter, [120, 180, 300, 420, 600][whole(5)] ?? 300] as const)),
  }));
  const targets = Array.from({ length: 1 + whole(8) }, (_, i): PlanTarget => {
    const filters = FILTERS.filter(() => random() < 0.5);
    const most = [0.6, 3, 12, 30][whole(4)] ?? 12;
    return target(
      `T ${i}`,
      Object.fromEntries((filters.length > 0 ? filters : ['Ha']).map((filter) => [filter, 0.1 + most * random()])),
      { priority: [0.5, 1, 1, 2][whole(4)], daysLeft: random() < 0.3 ? whole(60) : null },
    );
  });
  const slots = 8 + whole(18);
  const nights = Array.from({ length: 5 }, (_, n): FakeNight => {
    const rise = whole(slots);
    return {
      slots,
      moon: random() < 0.5 ? [0, rise] : [rise, slots],
      up: targets.map((_t, i) => {
        const from = whole(slots) - 6;
        return i % 3 === 0 ? ([0, slots] as const) : ([Math.max(0, from), Math.min(slots, from + 12)] as const);
      }),
      transits: targets.map(() => whole(2 * slots)),
      date: `2026-12-${String(n + 1).padStart(2, '0')}`,
    };
  });
  return question(targets, nights, { trains });
}
