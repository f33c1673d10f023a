/**
 * Outlook and plan of an archive of invented nights at the invented site, under the real Sun and Moon: they must agree
 * with each other, with the goals, with the report and with the archive itself.
 */
import { describe, expect, it } from 'vitest';
import { parseGoals } from '../../src/config/index.js';
import { moonNear } from '../../src/findings/moon-near.js';
import { lookAhead } from '../../src/look-ahead.js';
import { separationDeg, sum, type Outlook, type Plan } from '../../src/model/index.js';
import { addDays } from '../../src/outlook/dates.js';
import { planAhead } from '../../src/plan-ahead.js';
import { progressOf } from '../../src/progress/index.js';
import { makeSkyObserver } from '../../src/sky/index.js';
import { TARGETS } from '../support/generator/scenarios.js';
import { CIERZO_HILL } from '../support/nights.js';
import { hoursOf, summaryOf } from '../support/records.js';
import { some } from '../support/runs.js';

const PLACES = [TARGETS.m33, TARGETS.ngc281].map(({ name, raDeg, decDeg }) => ({ name, aliases: [], raDeg, decDeg }));
const GOALS = `targets:
  - { name: M 33, goals: { L: 8h, R: 7h } }
  - { name: NGC 281, goals: { Ha: 14h, OIII: 12h } }`;

/** Nights of two trains, one every so many evenings, each with an hour of everything. */
function lookFrom(from: string, count: number, every: number, goals = GOALS): Outlook & { readonly plan: () => Plan } {
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
  const options = { from, nowMs: Date.parse(`${from}T12:00:00Z`), nights: 14 };
  const outlook = lookAhead(progress, book, () => 'Cierzo Hill', options);
  if (outlook === null) throw new Error('no outlook');
  return {
    ...outlook,
    plan: () => {
      const plan = planAhead(progress, outlook, book, () => 'Cierzo Hill', options);
      if (plan === null) throw new Error('no plan');
      return plan;
    },
  };
}

describe.each(some(['2026-10-20', '2026-11-15', '2026-12-20'], 2))('outlook and plan from %s', (from) => {
  const outlook = lookFrom(from, 5, 3);
  const plan = outlook.plan();
  const wants = outlook.targets.flatMap(({ name, wants: own }) => own.map((w) => ({ ...w, target: name })));
  const keyOf = ({ target, filter }: { readonly target: string; readonly filter: string | null }) =>
    `${target} ${filter}`;

  it('speak of the same targets and filters: each that needs something is planned for, or it is said why not', () => {
    const lines = plan.nights.flatMap((night) => night.lines);
    const said = [...lines, ...plan.left].map(keyOf);
    expect(wants.length).toBeGreaterThan(2);
    expect(new Set(said)).toEqual(new Set(wants.map(keyOf)));
  });

  it('agree on the hours: what is needed is what the plan adds and what it leaves', () => {
    for (const want of wants) {
      const added = plan.nights.flatMap((night) => night.lines.filter((line) => keyOf(line) === keyOf(want)));
      const left = plan.left.find((line) => keyOf(line) === keyOf(want));
      const known = sum(added.map(({ addsHours }) => addsHours)) + (left?.lacksHours ?? 0);
      // Less than 3 minutes is not said.
      expect(Math.abs(known - want.hours), keyOf(want)).toBeLessThan(0.05);
    }
  });

  it('keep the distances from the Moon by which the report judges', () => {
    const sky = makeSkyObserver({ ...CIERZO_HILL, minimumAltitudeDeg: 25 });
    const { broadbandDeg, oxygenDeg, redDeg } = moonNear.defaults;
    expect([broadbandDeg, oxygenDeg, redDeg]).toEqual([90, 60, 35]);
    let seen = 0;
    for (const { span, target, trains } of plan.nights.flatMap((night) => night.blocks)) {
      const place = PLACES.find(({ name }) => name === target);
      if (!place) throw new Error(target);
      for (let atMs = span.startMs + 900_000; atMs < span.endMs; atMs += 1_800_000) {
        const at = sky.at(atMs);
        if (at.moon.altitudeDeg <= 0) continue;
        const here = at.direction(place);
        const apart = separationDeg(here.azimuthDeg, here.altitudeDeg, at.moon.azimuthDeg, at.moon.altitudeDeg);
        for (const train of trains) {
          const askedDeg = train.state === 'exposes' ? { Ha: redDeg, OIII: oxygenDeg }[train.filter] : undefined;
          if (askedDeg === undefined) continue;
          // The plan looks at the middle of each half hour.
          expect(apart).toBeGreaterThan(askedDeg * Math.sqrt(at.moonPhase.illumination) - 0.5);
          seen++;
        }
      }
    }
    expect(seen).toBeGreaterThan(0);
  });
});

describe('the pace', () => {
  it('is not inferred from five nights in a row, and counts the idle time since', () => {
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
