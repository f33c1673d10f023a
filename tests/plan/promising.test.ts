import { describe, expect, it } from 'vitest';
import { itemAt } from '../../src/model/index.js';
import { planNights } from '../../src/plan/index.js';
import { openLines } from '../../src/plan/lines.js';
import { nightProblem } from '../../src/plan/night-problem.js';
import { MOST_TARGETS, promisingTargets } from '../../src/plan/promising.js';
import { question, target } from './fake-nights.js';

/** Targets one after another through the night, those of a higher number more wanted. */
const crowd = (count: number) => {
  const targets = Array.from({ length: count }, (_, i) =>
    target(`T ${i}`, { Ha: 5, L: 5 }, { priority: 1 + i / (10 * count) }),
  );
  const up = targets.map((_t, i) => [i % 12, (i % 12) + 8] as const);
  return question(targets, [{ slots: 20, up }]);
};

describe('the targets that a night is planned with', () => {
  it('are all of a dozen, and no more than sixteen of a hundred: the best of each part of the night', () => {
    for (const count of [12, 100]) {
      const asked = crowd(count);
      const night = itemAt(asked.nights, 0);
      const chosen = promisingTargets(night, openLines(asked.targets), asked);
      expect(chosen.size).toBe(Math.min(count, MOST_TARGETS));
      for (const slot of night.slots) {
        const up = slot.targets.flatMap(({ isUp }, i) => (isUp ? [i] : []));
        if (up.length > 0) expect(chosen).toContain(Math.max(...up));
      }
      const problem = nightProblem(night, openLines(asked.targets), asked);
      expect(new Set(problem.choices.map((choice) => choice.target)).size).toBe(chosen.size + 1);
    }
  });

  it('fill the night as well as all would', () => {
    const [night] = planNights(crowd(40));
    const hours = (night?.blocks ?? []).reduce((all, { span }) => all + (span.endMs - span.startMs) / 3_600_000, 0);
    expect(hours).toBeGreaterThan(8.5);
  });
});
