import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { NightHours, Season } from '../../src/model/index.js';
import { addDays, daysBetween } from '../../src/outlook/dates.js';
import { Futures } from '../../src/outlook/estimate.js';
import { paceOf, type PastNight } from '../../src/outlook/pace.js';
import { Work, type Task } from '../../src/outlook/work.js';
import { runs } from '../support/runs.js';

const HOUR = 3_600_000;
/** Forty nights make nothing surer than this: (n + 1) ÷ (n + 2) (rule of succession; P.-S. Laplace 1774). */
const SUREST = 41 / 42;
const ALL_YEAR: Season = { state: 'now', until: null };

/** Nights of ten dark hours, every `every` days up to the eve of those ahead, on which `kept` hours were kept in all. */
const past = (count: number, every: number, kept: number, train = 'heron'): PastNight[] =>
  Array.from({ length: count }, (_, i) => ({
    date: addDays('2026-11-30', (i + 1 - count) * every),
    darkMs: 10 * HOUR,
    keptByTrainMs: { [train]: kept * HOUR },
  }));
const ahead = (count: number, hours: Partial<NightHours> = {}): NightHours[] =>
  Array.from({ length: count }, (_, i) => ({
    date: addDays('2026-12-01', i),
    dark: 12,
    up: 10,
    moonless: 10,
    farMoon: 0,
    deepRedMoon: 0,
    ...hours,
  }));
const dates = (nights: readonly NightHours[]) => nights.map((n) => n.date);
const estimate = (
  nights: NightHours[],
  hours: number,
  before: PastNight[],
  more: { season?: Season; bearsMoon?: Task['bearsMoon']; train?: string; seed?: number } = {},
) =>
  new Futures(before, dates(nights), more.seed ?? 1).estimate(
    nights,
    [{ train: more.train ?? null, bearsMoon: more.bearsMoon ?? 'none', hours }],
    more.season ?? ALL_YEAR,
  );

describe('the estimate of nights', () => {
  it('is plain division where every day was alike', () => {
    // Every day used, half of each dark hour kept: five hours a night.
    const result = estimate(ahead(60), 22, past(40, 1, 5));
    expect(result?.nights).toEqual({ low: 5, middle: 5, high: 5 });
    expect(result?.dates).toEqual({ low: '2026-12-05', middle: '2026-12-05', high: '2026-12-05' });
    expect(result).toMatchObject({ finished: SUREST, finishedThisSeason: SUREST });
  });

  it('counts nights used, and lets days pass between them as they did', () => {
    const result = estimate(ahead(200), 20, past(12, 5, 5));
    expect(result?.nights).toEqual({ low: 4, middle: 4, high: 4 });
    const days = (Date.parse(result?.dates?.middle ?? '') - Date.parse('2026-12-01')) / 86_400_000;
    expect(days).toBeGreaterThan(10);
    expect(days).toBeLessThan(26);
    expect((result?.dates?.low ?? '') < (result?.dates?.high ?? '')).toBe(true);
  });

  it('scales with the hours the target is up', () => {
    expect(estimate(ahead(60, { moonless: 4, up: 4 }), 20, past(40, 1, 5))?.nights?.middle).toBe(10);
  });

  it('gives broadband the moonless hours alone, and narrowband those under a far Moon too', () => {
    const half = ahead(60, { moonless: 5, farMoon: 5, deepRedMoon: 5 });
    expect(estimate(half, 20, past(40, 1, 5))?.nights?.middle).toBe(8);
    expect(estimate(half, 20, past(40, 1, 5), { bearsMoon: 'far' })?.nights?.middle).toBe(4);
  });

  it('asks of a train only what that train has done', () => {
    expect(estimate(ahead(60), 20, past(40, 1, 5), { train: 'heron' })?.nights?.middle).toBe(4);
    expect(estimate(ahead(60), 20, past(40, 1, 5), { train: 'wren' })).toMatchObject({
      finished: 0,
      nights: null,
      dates: null,
    });
  });

  it('leaves an end open that less than one draw in ten reaches', () => {
    const result = estimate(ahead(30), 15, past(8, 9, 5));
    expect(result?.finished).toBeGreaterThan(0.1);
    expect(result?.finished).toBeLessThan(0.9);
    expect(result?.nights?.high).toBeNull();
  });

  it('counts the days without a night since the last one: after a long rest the dates lie further off', () => {
    const rested = past(40, 1, 5).map((night) => ({ ...night, date: addDays(night.date, -120) }));
    const [busy, idle] = [estimate(ahead(200), 22, past(40, 1, 5)), estimate(ahead(200), 22, rested)];
    expect(idle?.nights).toEqual(busy?.nights);
    expect(daysBetween(busy?.dates?.middle ?? '', idle?.dates?.middle ?? '')).toBeGreaterThan(7);
  });

  it('calls nothing surer than 99 %, however many nights went well', () => {
    expect(estimate(ahead(30), 5, past(400, 1, 5))).toMatchObject({ finished: 0.99, finishedThisSeason: 0.99 });
  });

  it('says how many draws finish before the season ends', () => {
    const season: Season = { state: 'now', until: '2026-12-04' };
    expect(estimate(ahead(60), 20, past(40, 1, 5), { season })).toMatchObject({
      finished: SUREST,
      finishedThisSeason: SUREST,
    });
    expect(estimate(ahead(60), 25, past(40, 1, 5), { season })).toMatchObject({
      finished: SUREST,
      finishedThisSeason: 0,
    });
  });

  it('is not made from too few nights', () => {
    expect(estimate(ahead(60), 20, past(4, 3, 5))).toBeNull();
    expect(estimate(ahead(60), 20, past(5, 3, 5))).not.toBeNull();
  });

  it('is the same for the same seed', () => {
    const make = (seed: number) => estimate(ahead(120), 30, past(9, 6, 4), { seed });
    expect(make(7)).toEqual(make(7));
    expect(make(7)?.finished).toBeCloseTo(make(8)?.finished ?? 0, 1);
  });

  it('draws from the same season where the archive has enough of it', () => {
    // A year of past: in winter every day is used, in summer none.
    const winter = Array.from({ length: 365 }, (_, i) => addDays('2025-07-01', i)).filter(
      (date) => ['11', '12', '01'].includes(date.slice(5, 7)) || date === '2025-07-01' || date === '2026-06-30',
    );
    const before = winter.map((date): PastNight => ({ date, darkMs: 10 * HOUR, keptByTrainMs: { heron: 5 * HOUR } }));
    const december = estimate(ahead(30), 20, before);
    const june = Array.from({ length: 30 }, (_, i) => ({
      date: addDays('2027-05-20', i),
      dark: 12,
      up: 10,
      moonless: 10,
      farMoon: 0,
      deepRedMoon: 0,
    }));
    expect(december?.finished).toBeGreaterThan(0.95);
    expect(estimate(june, 20, before)?.finished).toBeLessThan(0.2);
  });

  it('never shrinks when more is lacking, and its ranks are in order', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 60, noNaN: true }),
        fc.double({ min: 1, max: 40, noNaN: true }),
        fc.integer({ min: 1, max: 9 }),
        (hours, extra, every) => {
          const before = past(10, every, 4);
          const [less, more] = [estimate(ahead(120), hours, before), estimate(ahead(120), hours + extra, before)];
          const { low = Infinity, middle, high } = less?.nights ?? {};
          expect(low).toBeLessThanOrEqual(middle ?? Infinity);
          expect(middle ?? Infinity).toBeLessThanOrEqual(high ?? Infinity);
          expect(more?.nights?.middle ?? Infinity).toBeGreaterThanOrEqual(middle ?? Infinity);
          expect(more?.finished).toBeLessThanOrEqual(less?.finished ?? 1);
        },
      ),
      runs(25),
    );
  });
});

describe('work', () => {
  it('never gives out more than the night holds, nor more than is lacking', () => {
    const amount = fc.integer({ min: 0, max: 48 }).map((quarters) => quarters / 4);
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            train: fc.constantFrom(null, 'heron', 'wren'),
            bearsMoon: fc.constantFrom('none', 'far', 'deep-red'),
            hours: amount,
          }),
          {
            maxLength: 5,
          },
        ),
        amount,
        amount,
        (tasks, moonless, farMoon) => {
          const total = tasks.reduce((sum, t) => sum + t.hours, 0);
          const work = new Work(tasks);
          const gained = work.spend({ moonless, farMoon, deepRedMoon: farMoon }, [
            { train: 'heron', rate: 0.5 },
            { train: 'wren', rate: 0.25 },
          ]);
          const left = work.hoursLeft;
          expect(left).toBeGreaterThanOrEqual(-1e-9);
          expect(total - left).toBeLessThanOrEqual(0.75 * (moonless + farMoon) + 1e-9);
          expect(gained).toBe(total - left > 0);
        },
      ),
    );
  });
});

describe('the pace of past nights', () => {
  it('tells nights a month and kept hours, with the middle eight in ten', () => {
    expect(paceOf(past(11, 3, 4))).toMatchObject({
      nights: 11,
      days: 31,
      nightsPerMonth: expect.closeTo(10.8, 1),
      keptHoursPerNight: { low: 4, middle: 4, high: 4 },
      keptPerDarkHour: { low: 0.4, middle: 0.4, high: 0.4 },
    });
    expect(paceOf([])).toEqual({
      nights: 0,
      days: 0,
      nightsPerMonth: null,
      keptPerDarkHour: null,
      keptHoursPerNight: null,
    });
  });

  it('counts the days without a night since the last one', () => {
    expect(paceOf(past(11, 3, 4), '2026-12-01').days).toBe(31);
    expect(paceOf(past(11, 3, 4), '2027-01-01')).toMatchObject({ days: 62, nightsPerMonth: expect.closeTo(5.4, 1) });
  });

  it('says nothing of a month from a few nights in a row', () => {
    expect(paceOf(past(5, 1, 4), '2026-12-01')).toMatchObject({ nights: 5, days: 5, nightsPerMonth: null });
  });
});
