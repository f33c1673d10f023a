/**
 * Advice to take a target before the Moon rises, followed in the simulator: what the Moon took of both nights is by the
 * program's own model, as the finding says it is.
 */
import { describe, expect, it } from 'vitest';
import type { JudgedFrame } from '../../../src/model/index.js';
import { FULL_MOON } from '../../support/generator/moonlit.js';
import { seeded } from '../../support/generator/random.js';
import type { Scenario } from '../../support/generator/scenario.js';
import { some } from '../../support/runs.js';
import { moonMs } from './moonlight.js';
import { draftOf, expectHeld, MINUTE, reported } from './support.js';

const SEEDS = some([1, 2, 11], 1);
/** Some 55° from the half-lit Moon that rises towards midnight, and above its limit two hours before that. */
const FIELD = { name: 'Bull Field', ra: '04:40:00', dec: '+25:00:00', raDeg: 70, decDeg: 25 };
/** Local midnight before the evening: summer time is over, the zone is an hour ahead. */
const MIDNIGHT_MS = Date.parse('2026-10-31T23:00:00.000Z');

function between(seed: number, fromMs: number, toMs: number, name: string): Scenario {
  const plan = (filter: string) => [{ target: FIELD.name, filter, seconds: 180, count: 999 }];
  return {
    ...FULL_MOON,
    name: `${name}-${seed}`,
    seed,
    flipAt: undefined,
    targets: [FIELD],
    begin: new Date(fromMs).toISOString(),
    end: new Date(toMs).toISOString(),
    trains: FULL_MOON.trains.map((t) => ({ ...t, refocusAfter: [], plan: plan(t.id === 'heron' ? 'L' : 'R') })),
  };
}

describe('a target under a Moon that has risen', () => {
  it.each(SEEDS)('wins what the hours before moonrise lose less: random night %i', async (seed) => {
    const lastingMs = (50 + seeded(seed).whole(0, 25)) * MINUTE;
    const beginMs = Date.parse('2026-11-01T23:55:00.000Z');
    const night = await reported(between(seed, beginMs, beginMs + lastingMs, 'moonrise'));
    const draft = draftOf(night, 'moon-near', /^heron imaged L/);
    const [, hour, minute] =
      /^Image L of Bull Field before moonrise, until (\d\d):(\d\d):/.exec(draft?.advice ?? '') ?? [];
    const untilMs =
      MIDNIGHT_MS + 24 * 60 * MINUTE * Number(Number(hour) < 12) + (Number(hour) * 60 + Number(minute)) * MINUTE;
    expect(untilMs).toBeLessThan(beginMs);
    const after = await reported(between(seed, untilMs - lastingMs, untilMs, 'moonrise-followed'));
    const ofHeron = (f: JudgedFrame): boolean => f.train === 'heron';
    expectHeld(draft?.winMs ?? NaN, moonMs(night, ofHeron) - moonMs(after, ofHeron), `win of: ${draft?.advice}`);
  });
});
