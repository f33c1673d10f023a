import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inferRig } from '../../src/gather/infer-rig.js';
import { firstToBegin, steeringTrain } from '../../src/gather/pilot-evidence.js';
import type { HeaderFrame } from '../../src/model/index.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

const DUSK_MS = Date.UTC(2026, 9, 14, 19);
const HOUR_MS = 3_600_000;

function lights(telescope: string, begins: readonly number[], count: number): HeaderFrame[] {
  return begins.flatMap((fromMs) =>
    Array.from({ length: count }, (_, i): HeaderFrame => {
      const startMs = fromMs + i * 300_000;
      const file = `${telescope}/${startMs}.fits`;
      const exposure = { startMs, endMs: startMs + 297_000 };
      return { file, sizeBytes: 5760, headerHash: file, kind: 'light', telescope, exposure, exposureSeconds: 297 };
    }),
  );
}

const nights = (laterMs: number): number[] => [0, 24, 48].map((hours) => DUSK_MS + hours * HOUR_MS + laterMs);

describe('the pilot', () => {
  it('begins a little before the others, whoever takes more frames', () => {
    const heron = lights('heron', nights(0), 4);
    const wren = lights('wren', nights(150_000), 9);
    expect(firstToBegin([wren, heron])).toBe(1);
    expect(inferRig([...heron, ...wren]).trains.map(({ id, role }) => [id, role])).toEqual([
      ['heron', 'pilot'],
      ['wren', 'companion'],
    ]);
  });

  it('is not determined by trains that begin together, hours apart, or in turn', () => {
    const heron = lights('heron', nights(0), 4);
    expect(firstToBegin([heron, lights('wren', nights(4000), 4)])).toBeNull();
    expect(firstToBegin([heron, lights('wren', nights(2 * HOUR_MS), 4)])).toBeNull();
    const turns = lights('wren', [DUSK_MS - 150_000, DUSK_MS + 24 * HOUR_MS + 150_000], 4);
    expect(firstToBegin([lights('heron', nights(0).slice(0, 2), 4), turns])).toBeNull();
    expect(firstToBegin([heron])).toBeNull();
  });

  it('is the train whose log steers the mount, in any words', async () => {
    const folder = tempFolder();
    const write = (name: string, lines: readonly string[]) => {
      writeFileSync(join(folder, name), lines.join('\n'));
      return { path: name, sizeBytes: 1 };
    };
    const exposures = Array.from({ length: 30 }, (_, i) => `20:${10 + i} Aufnahme ${i} gespeichert`);
    const steered = Array.from({ length: 8 }, (_, i) => `20:${10 + i} Versatz um 4 px, Nachführung läuft wieder`);
    const logs = [write('heron.log', exposures), write('wren.log', [...exposures.slice(0, 5), ...steered])];
    const owners = new Map(
      ['heron', 'wren'].flatMap((train) => ['', '-2'].map((n) => [`${train}${n}.log`, { train }])),
    );
    expect(await steeringTrain(folder, logs, ['heron', 'wren'], owners)).toBe('wren');
    // Nobody's log, or both alike.
    expect(await steeringTrain(folder, logs, ['owl', 'teal'], new Map())).toBeNull();
    const both = [write('heron-2.log', steered), write('wren-2.log', steered)];
    expect(await steeringTrain(folder, both, ['heron', 'wren'], owners)).toBeNull();
  });
});
