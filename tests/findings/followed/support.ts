/**
 * Advice put to the test: nights are simulated, the report's advice is followed in the simulator, which shares nothing
 * with the program, and what the night then truly keeps is compared with what the finding promised.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect } from 'vitest';
import { FINDINGS } from '../../../src/findings/index.js';
import type { FindingDraft } from '../../../src/findings/finding.js';
import { sum, type Night } from '../../../src/model/index.js';
import { nightFrom, readNights } from '../../../src/pipeline.js';
import { fewReplays } from '../../support/few-replays.js';
import { seeded } from '../../support/generator/random.js';
import { writeFiles } from '../../support/generator/samples.js';
import type { Scenario } from '../../support/generator/scenario.js';
import { CIERZO_HILL, HERON, TARGETS, WREN } from '../../support/generator/scenarios.js';
import { simulate } from '../../support/generator/simulate.js';
import { truthOf } from '../../support/generator/truth.js';
import { writeSession } from '../../support/generator/write-session.js';
import { inFull } from '../../support/runs.js';
import { TEST_NOW_MS } from '../../support/sample-night.js';
import { needsNoFolder, sessionOfScenario } from './without-folder.js';

export const MINUTE = 60_000;
/** Nights over which the true gain is averaged; their ends are spread over the longest block between two dithers. */
const RUNS = inFull(15, 9);
/** How far the ends of these nights lie apart, ms. */
const SPREAD_MS = 14 * 80_000;
/** Runs behind each figure of the replay. */
const REPLAYED = inFull(12, 4);
/** A win must hold within this share, or these minutes: the finding's own promise. */
export const SHARE = 0.15;
export const LEAST_MS = 3 * MINUTE;

/** A night of two trains whose exposures may or may not meet, begun late and ended early. */
export function scenarioOf(seed: number): Scenario {
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
export function trulyKeptMs(scenario: Scenario): number {
  const { totals } = truthOf(scenario.begin.slice(0, 10), simulate(scenario), scenario.trains);
  return 1000 * sum(totals.map((t) => t.seconds.kept));
}

/**
 * The mean over several nights that differ in their readouts, their settling, and by a minute or so in their end: one
 * night is luck, above all in whether its last subs were finished.
 */
export function gainMs(
  before: Scenario,
  after: Scenario,
  worthMs: (scenario: Scenario) => number = trulyKeptMs,
): number {
  const runs = Array.from({ length: RUNS }, (_, i) => ({
    seed: before.seed + 1000 * i,
    laterMs: Math.round((i / (RUNS - 1) - 0.5) * SPREAD_MS),
  }));
  const run = (scenario: Scenario, { seed, laterMs }: (typeof runs)[number]): number =>
    worthMs({ ...scenario, seed, end: new Date(Date.parse(scenario.end) + laterMs).toISOString() });
  const known = UNADVISED.get(before) ?? new Map<typeof worthMs, number>();
  const unadvisedMs = known.get(worthMs) ?? sum(runs.map((r) => run(before, r)));
  UNADVISED.set(before, known.set(worthMs, unadvisedMs));
  return (sum(runs.map((r) => run(after, r))) - unadvisedMs) / runs.length;
}

/** What nights are worth before any advice: several are put to each. */
const UNADVISED = new WeakMap<Scenario, Map<(scenario: Scenario) => number, number>>();

/** How a night is read. */
interface Reading {
  /** Whether a file of the session is on the disk; all are where it is absent. */
  readonly isThere?: (path: string) => boolean;
  readonly stars?: 'full' | 'strips';
  /** `null` where nothing that is asked for reads the replay. */
  readonly replay?: null;
}

/**
 * What the program makes of a night. In `npm test` it is read without its folder where that holds nothing more; the
 * findings, wins and replays of all nights here were the same to the last digit.
 *
 */
export async function reported(scenario: Scenario, how: Reading = {}): Promise<Night> {
  const { isThere, stars, ...replay } = how;
  const asUsual = fewReplays(REPLAYED);
  try {
    if (isThere === undefined && stars === undefined && inFull(false, needsNoFolder(scenario)))
      return await nightFrom(sessionOfScenario(scenario), scenario.begin.slice(0, 10), replay);
    return await readBack(scenario, how);
  } finally {
    asUsual();
  }
}

/** The night of a scenario's session folder. */
async function readBack(scenario: Scenario, { isThere = () => true, stars, ...replay }: Reading): Promise<Night> {
  // Gone with the night, not with the file of tests: several share this module.
  const root = mkdtempSync(join(tmpdir(), 'nightledger-advice-'));
  try {
    const { files } = writeSession(scenario);
    writeFiles(root, new Map([...files].filter(([path]) => isThere(path))));
    const measuring = stars && { by: stars, threads: 0 };
    const [night] = await readNights(root, { nowMs: TEST_NOW_MS, ...replay, ...(measuring && { stars: measuring }) });
    if (!night) throw new Error(`${scenario.name} holds no night`);
    return night;
  } finally {
    rmSync(root, { recursive: true, force: true });
  }
}

function promiseMs(promisedMs: number, trueMs: number): number {
  return Math.max(LEAST_MS, SHARE * Math.max(promisedMs, trueMs));
}

/** Whether a win holds within the promise. */
export function isHeld(promisedMs: number, trueMs: number): boolean {
  return Math.abs(promisedMs - trueMs) <= promiseMs(promisedMs, trueMs);
}

/** @param within so many times the promise */
export function expectHeld(promisedMs: number, trueMs: number, what: string, within = 1): void {
  expect(
    Math.abs(promisedMs - trueMs) / MINUTE,
    `${what}: stated ${(promisedMs / MINUTE).toFixed(1)} min, true ${(trueMs / MINUTE).toFixed(1)} min`,
  ).toBeLessThanOrEqual((within * promiseMs(promisedMs, trueMs)) / MINUTE);
}

/** A finding as its own module states it, before minutes are shared out among findings. */
export function draftOf(night: Night, id: string, about: RegExp): FindingDraft | undefined {
  const module = FINDINGS.find((f) => f.id === id);
  return module?.find(night, module.defaults).find((f) => about.test(f.title));
}

/** The same of a finding that reads no replay: replaying takes a fifth of a night. */
export async function draftAlone(scenario: Scenario, id: string, about: RegExp): Promise<FindingDraft | undefined> {
  return draftOf(await reported(scenario, { replay: null }), id, about);
}
