/**
 * Nights of any make for what is drawn and printed: 1 to 3 trains, 1 to 3 targets, subs of 20 s to 10 min, any Moon,
 * misfortunes.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Night } from '../../src/model/index.js';
import { readNights } from '../../src/pipeline.js';
import { seeded } from './generator/random.js';
import { writeFiles } from './generator/samples.js';
import type { Scenario, ScenarioTrain } from './generator/scenario.js';
import { CIERZO_HILL, HERON, TARGETS, WREN } from './generator/scenarios.js';
import { writeSession } from './generator/write-session.js';
import { TEST_NOW_MS } from './sample-night.js';

const SUBS = [20, 60, 120, 180, 300, 600] as const;
const FILTERS = [['L'], ['Ha', 'OIII'], ['Ha', 'OIII', 'SII'], ['L', 'R', 'G', 'B'], ['Clear 3']] as const;
const OWL: ScenarioTrain = { ...WREN, id: 'owl', telescope: 'owl', focalLengthMm: 250, startOffsetMin: 3 };
const MINUTE = 60_000;
/** What a rig file may say of cameras and filters. */
const NOISE = {
  darkSky: 21.2,
  camera: { readNoise: 1.6, gain: 0.25, darkCurrent: 0.001 },
  filterWidthsNm: { L: 300, R: 100, G: 100, B: 100, Ha: 4, OIII: 4, SII: 4 },
} as const;

/** A night by its seed. */
export function anyScenario(seed: number): Scenario {
  const random = seeded(seed);
  const one = <T>(list: readonly T[]): T => list[random.whole(0, list.length - 1)] as T;
  // From seed 20 on also under a full Moon, or one that rises in the evening, and with cameras that the rig file tells of.
  const isLater = seed >= 20;
  const day = isLater ? ([0, 11, 16][seed % 3] ?? 0) : 0;
  const beginMs = Date.parse('2026-10-14T18:40:00.000Z') + day * 24 * 60 * MINUTE + random.whole(0, 90) * MINUTE;
  const endMs = beginMs + random.whole(60, 560) * MINUTE;
  const at = (share: number): string => new Date(beginMs + Math.round(share * (endMs - beginMs))).toISOString();
  const targets = [TARGETS.ic1396, TARGETS.ngc281, TARGETS.m33].slice(0, random.whole(1, 3));
  const filters = one(FILTERS);
  const train = (base: ScenarioTrain): ScenarioTrain => {
    const seconds = one(SUBS);
    return {
      ...base,
      plan: targets.flatMap(({ name }) =>
        filters.map((filter) => ({ target: name, filter, seconds, count: random.whole(6, 30) })),
      ),
      refocusAfter: random.next() < 0.6 ? [random.whole(4, 20)] : [],
    };
  };
  return {
    name: `any-${seed}`,
    seed,
    begin: new Date(beginMs).toISOString(),
    end: new Date(endMs).toISOString(),
    site: CIERZO_HILL,
    trains: [HERON, WREN, OWL].slice(0, random.whole(1, 3)).map(train),
    targets,
    ditherEvery: random.whole(1, 6),
    starLost: random.next() < 0.5 ? [{ at: at(0.3), seconds: random.whole(5, 90) }] : [],
    clouds: random.next() < 0.5 ? [{ from: at(0.5), to: at(0.55) }] : [],
    ...(random.next() < 0.4 ? { flipAt: at(0.65) } : {}),
    guidingEverySeconds: one([0, 5, 20]),
    guidingSigmaArcsec: 0.4 + random.next(),
    ...(isLater && seed % 2 === 0 ? NOISE : {}),
  };
}

/** Writes the night as a session, headers real and pixels tiny, and reads it. */
export async function anyNight(seed: number): Promise<Night> {
  const folder = mkdtempSync(join(tmpdir(), 'nightledger-any-'));
  try {
    writeFiles(folder, writeSession(anyScenario(seed), { logs: seed % 7 !== 0 }).files);
    const [night] = await readNights(folder, { nowMs: TEST_NOW_MS });
    if (night === undefined) throw new Error(`seed ${seed} made no night`);
    return night;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
