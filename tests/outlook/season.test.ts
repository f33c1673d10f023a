import { describe, expect, it } from 'vitest';
import type { NightHours } from '../../src/model/index.js';
import { addDays } from '../../src/outlook/dates.js';
import { monthHours, seasonOf } from '../../src/outlook/season.js';

/** Consecutive nights with so many hours up. */
const nights = (...up: readonly number[]): NightHours[] =>
  up.map((hours, i) => ({
    date: addDays('2026-12-30', i),
    dark: 12,
    up: hours,
    moonless: hours / 2,
    farMoon: hours / 4,
    deepRedMoon: hours / 4,
  }));

describe('the season of a target', () => {
  it('that is up ends with the last night worth while', () => {
    expect(seasonOf(nights(4, 3, 2, 1.9, 0, 5), 2)).toEqual({ state: 'now', until: '2027-01-01' });
  });

  it('that is not up says from when it is, and until when', () => {
    expect(seasonOf(nights(1, 0, 2, 3, 1), 2)).toEqual({ state: 'later', from: '2027-01-01', until: '2027-01-02' });
  });

  it('has no end where the nights looked at end in it', () => {
    expect(seasonOf(nights(2, 2, 2), 2)).toEqual({ state: 'now', until: null });
    expect(seasonOf(nights(1, 2, 2), 2)).toEqual({ state: 'later', from: '2026-12-31', until: null });
  });

  it('never comes for a target that stays low', () => {
    expect(seasonOf(nights(0, 1.5, 1), 2)).toEqual({ state: 'never', bestHours: 1.5 });
  });
});

describe('hours by month', () => {
  it('are the mean of its nights', () => {
    expect(monthHours(nights(4, 2, 1, 3))).toEqual([
      { month: '2026-12', up: 3, moonless: 1.5, farMoon: 0.75 },
      { month: '2027-01', up: 2, moonless: 1, farMoon: 0.5 },
    ]);
  });
});
