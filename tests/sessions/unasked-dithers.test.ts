/**
 * A mount that dithers on its own, through whatever the companion has open: its dithers say nothing about the
 * companion's clock, and are not to be explained by a clock that was set by hours.
 */
import { rmSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readNights } from '../../src/pipeline.js';
import { writeFiles } from '../support/generator/samples.js';
import { TWIN_NIGHT } from '../support/generator/scenarios.js';
import { writeSession } from '../support/generator/write-session.js';
import { some } from '../support/runs.js';
import { TEST_NOW_MS } from '../support/sample-night.js';

const folder = mkdtempSync(join(tmpdir(), 'nightledger-unasked-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('a night of dithers that nobody asked for', () => {
  it.each(
    some(
      Array.from({ length: 12 }, (_, i) => 11 + i),
      1,
    ),
  )('is no sign that a clock was set (seed %i)', async (seed) => {
    const scenario = { ...TWIN_NIGHT, name: `unasked-${seed}`, seed, clouds: [], habits: { dithersUnasked: true } };
    const root = join(folder, scenario.name);
    writeFiles(root, writeSession(scenario).files);
    const [night] = await readNights(root, { nowMs: TEST_NOW_MS, replay: null });
    const jumps = night?.timeline.clocks.flatMap((c) => (c.jump ? [`${c.train} ${c.source} ${c.jump.byMs}`] : []));
    expect(jumps).toEqual([]);
    const moved = night?.timeline.clocks.filter((c) => c.corrected && Math.abs(c.aheadMs) > 1000);
    expect(moved).toEqual([]);
  });
});
