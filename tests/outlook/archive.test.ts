/**
 * The outlook of an archive of invented nights at the invented site, under the real Sun and Moon: what it proposes must
 * agree with the goals, with the report and with the archive itself.
 */
import { describe, expect, it } from 'vitest';
import { parseGoals } from '../../src/config/index.js';
import { moonNear } from '../../src/findings/moon-near.js';
import { lookAhead } from '../../src/look-ahead.js';
import { separationDeg, sum, type Choice, type NextNight, type Outlook } from '../../src/model/index.js';
import { addDays } from '../../src/outlook/dates.js';
import { progressOf } from '../../src/progress/index.js';
import { makeSkyObserver } from '../../src/sky/index.js';
import { TARGETS } from '../support/generator/scenarios.js';
import { CIERZO_HILL } from '../support/nights.js';
import { hoursOf, summaryOf } from '../support/records.js';

const PLACES = [TARGETS.m33, TARGETS.ngc281].map(({ name, raDeg, decDeg }) => ({ name, aliases: [], raDeg, decDeg }));
const GOALS = `targets:
  - { name: M 33, goals: { L: 8h, R: 7h } }
  - { name: NGC 281, goals: { Ha: 14h, OIII: 12h } }`;

/** Nights of two trains, one every so many evenings, each with an hour of everything. */
function lookFrom(from: string, count: number, every: number, goals = GOALS): Outlook {
  const last = addDays(from, -1);
  const nights = Array.from({ length: count }, (_, i) =>
    summaryOf(
      addDays(last, -every * (count - 1 - i)),
      [
        hoursOf('M 33', 'L', 'heron', 0.2),
        hoursOf('M 33', 'R', 'wren', 0.2),
        hoursOf('NGC 281', 'Ha', 'heron', 2),
        hoursOf('NGC 281', 'OIII', 'wren', 2),
      ],
      { targets: PLACES },
    ),
  );
  const { book } = parseGoals('goals.yaml', goals);
  const progress = progressOf(nights, book, () => 'Cierzo Hill');
  const outlook = lookAhead(progress, book, () => 'Cierzo Hill', { from, nowMs: Date.parse(`${from}T12:00:00Z`) });
  if (outlook === null) throw new Error('no outlook');
  return outlook;
}

const choicesOf = ({ withoutMoon, underMoon }: NextNight): Choice[] => [withoutMoon, underMoon].flatMap((c) => c ?? []);

describe.each(['2026-10-20', '2026-11-15', '2026-12-20'])('the next nights from %s', (from) => {
  const outlook = lookFrom(from, 5, 3);
  const rate = outlook.pace.keptPerDarkHour?.middle ?? NaN;

  it('use goals up as they are planned: nothing is proposed that the nights before have finished', () => {
    const wants = outlook.targets.flatMap(({ name, wants: own }) => own.map((w) => ({ name, ...w })));
    expect(wants.length).toBeGreaterThan(2);
    for (const want of wants) {
      const hours = outlook.next
        .flatMap(choicesOf)
        .filter((c) => c.target === want.name && c.filter === want.filter)
        .map((c) => c.hours * rate);
      // Before the last of them something was still lacking.
      expect(sum(hours.slice(0, -1)), `${want.filter} of ${want.name}`).toBeLessThan(want.hours);
    }
    const first = outlook.next.map((n) => JSON.stringify(n.withoutMoon?.filter));
    expect(new Set(first).size).toBeGreaterThan(1);
  });

  it('keep the distances from the Moon by which the report judges', () => {
    const sky = makeSkyObserver({ ...CIERZO_HILL, minimumAltitudeDeg: 25 });
    const { broadbandDeg, oxygenDeg, redDeg } = moonNear.defaults;
    expect([broadbandDeg, oxygenDeg, redDeg]).toEqual([90, 60, 35]);
    let seen = 0;
    for (const { date, underMoon } of outlook.next) {
      if (underMoon === null) continue;
      const place = PLACES.find(({ name }) => name === underMoon.target);
      if (!place) throw new Error(underMoon.target);
      const askedDeg = { Ha: redDeg, OIII: oxygenDeg }[underMoon.filter ?? ''] ?? NaN;
      const noonMs = Date.parse(`${date}T12:00:00Z`);
      const far = Array.from({ length: 144 }, (_, i) => sky.at(noonMs + i * 600_000)).filter((at) => {
        const target = at.direction(place);
        const apart = separationDeg(target.azimuthDeg, target.altitudeDeg, at.moon.azimuthDeg, at.moon.altitudeDeg);
        return (
          at.sun.altitudeDeg < -12 &&
          at.moon.altitudeDeg > 0 &&
          target.altitudeDeg > 25 &&
          apart >= askedDeg * Math.sqrt(at.moonPhase.illumination)
        );
      });
      // Ten minutes each; straight lines over half an hour and a phase of the night's middle are a little off.
      expect(far.length / 6, `${date} ${underMoon.filter}`).toBeCloseTo(underMoon.hours, 0);
      seen++;
    }
    expect(seen).toBeGreaterThan(0);
  });
});

describe('the pace', () => {
  it('is not told from five nights in a row, and counts the idle time since', () => {
    const row = lookFrom('2026-11-15', 5, 1);
    expect(row.pace).toMatchObject({ nights: 5, days: 5, nightsPerMonth: null });
    const spread = lookFrom('2026-11-15', 5, 10);
    // Five nights on the 41 days from the first of them to the eve of today.
    expect(spread.pace.nightsPerMonth).toBeCloseTo((5 / 41) * (365.25 / 12), 6);
  });
});

describe('the spread', () => {
  it('never comes to 100 %, however many nights there are and however little is lacking', () => {
    for (const count of [6, 60, 300]) {
      const { targets } = lookFrom('2026-11-15', count, 1, 'targets: [ { name: NGC 281, goals: { Ha: 700h } } ]');
      const estimates = targets.flatMap((t) => t.estimate ?? []);
      expect(estimates.length).toBeGreaterThan(0);
      for (const { finished, finishedThisSeason } of estimates)
        for (const share of [finished, finishedThisSeason]) expect(Math.round(100 * share)).toBeLessThan(100);
    }
  });
});
