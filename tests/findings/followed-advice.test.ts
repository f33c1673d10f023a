/**
 * Advice put to the test: random nights are simulated, the report's advice is followed in the simulator, which shares
 * nothing with the program, and what the night then truly keeps is compared with what the finding promised.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { isReplayed, sum, type Finding, type Night } from '../../src/model/index.js';
import { readNights } from '../../src/pipeline.js';
import { seeded } from '../support/generator/random.js';
import { writeFiles } from '../support/generator/samples.js';
import type { Scenario } from '../support/generator/scenario.js';
import { CIERZO_HILL, HERON, TARGETS, WREN } from '../support/generator/scenarios.js';
import { writeSession } from '../support/generator/write-session.js';
import { TEST_NOW_MS } from '../support/sample-night.js';

const MINUTE = 60_000;
/** A win must hold within this share, or these minutes: the finding's own promise. */
const SHARE = 0.15;
const LEAST_MS = 3 * MINUTE;

const folder = mkdtempSync(join(tmpdir(), 'nightledger-advice-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A night of two trains whose exposures may or may not meet, begun late and ended early. */
function scenarioOf(seed: number): Scenario {
  const random = seeded(seed);
  const lengths = [120, 180, 240, 300] as const;
  const pick = (): number => lengths[random.whole(0, lengths.length - 1)] ?? 240;
  // One filter all night: how many frames each filter gets is then no matter of the rules.
  const plan = (seconds: number) => [{ target: 'NGC 281', filter: 'Ha', seconds, count: 999 }];
  return {
    name: `advice-${seed}`,
    seed,
    begin: new Date(Date.parse('2026-10-14T18:50:00.000Z') + random.whole(0, 40) * MINUTE).toISOString(),
    end: new Date(Date.parse('2026-10-15T03:30:00.000Z') + random.whole(0, 60) * MINUTE).toISOString(),
    site: CIERZO_HILL,
    trains: [
      { ...HERON, plan: plan(pick()), refocusAfter: [] },
      { ...WREN, plan: plan(pick()), refocusAfter: [] },
    ],
    targets: [TARGETS.ngc281],
    ditherEvery: random.whole(2, 4),
    starLost: [],
    clouds: [],
    guidingEverySeconds: 0,
    guidingSigmaArcsec: 0.6,
  };
}

/** Kept exposure by the simulator's own verdicts, all trains, ms. */
function trulyKeptMs(scenario: Scenario): number {
  return 1000 * sum(writeSession(scenario).truth.totals.map((t) => t.seconds.kept));
}

/**
 * The mean over several nights that differ in their readouts, their settling, and by a minute or so in their end: one
 * night is luck, above all in whether its last subs were finished.
 */
function gainMs(before: Scenario, after: Scenario): number {
  const runs = [0, 1, 2, 3, 4, 5, 6].map((i) => ({ seed: before.seed + 1000 * i, laterMs: (i - 3) * 67_000 }));
  const run = (scenario: Scenario, { seed, laterMs }: (typeof runs)[number]): number =>
    trulyKeptMs({ ...scenario, seed, end: new Date(Date.parse(scenario.end) + laterMs).toISOString() });
  return sum(runs.map((r) => run(after, r) - run(before, r))) / runs.length;
}

async function reported(scenario: Scenario): Promise<Night> {
  const root = join(folder, scenario.name);
  writeFiles(root, writeSession(scenario).files);
  const [night] = await readNights(root, { nowMs: TEST_NOW_MS });
  if (!night) throw new Error(`${scenario.name} holds no night`);
  return night;
}

function expectHeld(promisedMs: number, trueMs: number, what: string): void {
  expect(Math.abs(promisedMs - trueMs) / MINUTE, what).toBeLessThanOrEqual(
    Math.max(LEAST_MS, SHARE * Math.max(promisedMs, trueMs)) / MINUTE,
  );
}

/** The scenario under a what-if's settings. */
function followed(scenario: Scenario, settings: readonly string[]): Scenario {
  const pairs = settings.map((setting) => setting.split('=') as [string, string]);
  const every = pairs.find(([key]) => key === 'dither-every')?.[1];
  const secondsOf = new Map(pairs.map(([key, value]) => [/^exposure\.(\w+)$/.exec(key)?.[1], Number(value)]));
  return {
    ...scenario,
    ditherEvery: every === undefined ? scenario.ditherEvery : Number(every),
    trains: scenario.trains.map((train) => ({
      ...train,
      plan: train.plan.map((p) => ({ ...p, seconds: secondsOf.get(train.id) ?? p.seconds })),
    })),
  };
}

const CAN_FOLLOW = /^(dither-every|exposure\.\w+)=/;

describe.each([1, 2, 3, 4, 5, 6])('on random night %i', (seed) => {
  const scenario = scenarioOf(seed);
  const asked = reported(scenario);
  const found = (night: Night, title: RegExp): Finding | undefined =>
    night.findings.ranked.find((f) => f.id === 'unused-darkness' && title.test(f.title));

  it('beginning at dark wins what was promised', async () => {
    const night = await asked;
    const finding = found(night, /^First/);
    if (finding?.winMs === undefined) return;
    const begin = new Date(night.sky.window.startMs + 2 * MINUTE).toISOString();
    expectHeld(finding.winMs, gainMs(scenario, { ...scenario, begin }), finding.title);
  });

  it('imaging on to the end of darkness wins what was promised', async () => {
    const night = await asked;
    const finding = found(night, /^Last/);
    expect(finding?.winMs).toBeGreaterThan(0);
    const end = new Date(night.sky.window.endMs).toISOString();
    expectHeld(finding?.winMs ?? NaN, gainMs(scenario, { ...scenario, end }), finding?.title ?? '');
  });

  it('the best rules win what was promised, and no finding promises more', async () => {
    const night = await asked;
    if (!isReplayed(night.replay)) throw new Error('not replayed');
    const { best, whatIfs } = night.replay;
    const free = [...whatIfs, ...(best ? [best] : [])].filter(
      (w) => w.outside.length === 0 && w.settings.every((s) => CAN_FOLLOW.test(s)) && w.gain.meanMs >= 5 * MINUTE,
    );
    const waits = night.findings.ranked.filter((f) => f.id === 'dither-wait' && f.winMs !== undefined);
    for (const w of free) {
      const trueMs = gainMs(scenario, followed(scenario, w.settings));
      const isAdvised = w.id === 'best' || waits.some((f) => f.advice.includes(w.title.slice(1)));
      if (isAdvised) expectHeld(w.gain.meanMs, trueMs, w.title);
      // What nobody advises holds within its own spread and that.
      const slackMs = Math.max(LEAST_MS, SHARE * trueMs);
      expect(trueMs, w.title).toBeGreaterThan(w.gain.lowMs - slackMs);
      expect(trueMs, w.title).toBeLessThan(w.gain.highMs + slackMs);
    }
    for (const finding of waits) {
      const named = free.filter((w) => finding.advice.includes(w.title.slice(1)));
      const wonMs = Math.max(0, ...named.map((w) => gainMs(scenario, followed(scenario, w.settings))));
      expect(finding.winMs, finding.title).toBeLessThanOrEqual(wonMs + Math.max(LEAST_MS, SHARE * wonMs));
    }
  });
});
