/** Logs whose names tell nothing: whose they are by what lies about them and what they say. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseRig } from '../../src/config/index.js';
import { logOwners } from '../../src/gather/log-owners.js';
import type { HeaderFrame } from '../../src/model/index.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

const TRAINS = parseRig(
  'rig.yaml',
  'trains: [ { id: heron, role: pilot, match: { TELESCOP: Tall Glass } }, { id: wren, match: { TELESCOP: wren } } ]',
).rig.trains;
const DUSK_MS = Date.UTC(2026, 9, 14, 19, 40);

/** Lights of 300 s of heron and of 240 s of wren, in folders that say nothing. */
function lightsOf(train: string): HeaderFrame[] {
  const [seconds, filter, target] = train === 'heron' ? [300, 'Ha', 'NGC 281'] : [240, 'OIII', 'NGC 281'];
  return Array.from({ length: 24 }, (_, i) => {
    const startMs = DUSK_MS + i * (seconds * 1000 + 7000) + (train === 'wren' ? 95_000 : 0);
    const file = `night/${train === 'heron' ? 'a' : 'b'}/shot_${train === 'heron' ? 1000 + i : 2000 + i}.fits`;
    const exposure = { startMs, endMs: startMs + seconds * 1000 };
    return { file, sizeBytes: 1, headerHash: file, kind: 'light', filter, target, exposure, exposureSeconds: seconds };
  });
}

const OWN = TRAINS.map((train) => ({ train, lights: lightsOf(train.id) }));

function ownerOf(path: string, lines: readonly string[]) {
  const folder = tempFolder();
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), lines.join('\n'));
  return logOwners(folder, [{ path, sizeBytes: 1 }], OWN).get(path);
}

const beginsOf = (train: string, aheadMs: number): string[] =>
  lightsOf(train).map(({ exposure }) => {
    const at = new Date((exposure?.startMs ?? NaN) + aheadMs).toISOString().slice(11, 19);
    return `${at} shutter is open`;
  });

describe('a log whose name says nothing', () => {
  it.each(['heron', 'wren'])('is %s’s by its exposures, in local time and a second late', (train) => {
    const local = ownerOf('journal.log', beginsOf(train, 7_201_000));
    expect(local).toEqual({ train, by: 'this train’s frames begin at the times it gives' });
  });

  it('is that train’s whose frames it names', () => {
    const lines = lightsOf('wren').map(({ file }, i) => `${i} stored ${file.split('/').at(-1)}`);
    expect(ownerOf('journal.log', lines)).toEqual({ train: 'wren', by: 'it names this train’s frames' });
  });

  it('is that train’s beside whose frames alone it lies', () => {
    expect(ownerOf('night/b/journal.log', ['nothing'])?.train).toBe('wren');
    expect(ownerOf('night/a/deep/journal.log', ['nothing'])?.train).toBe('heron');
    expect(ownerOf('night/journal.log', ['nothing'])).toBeUndefined();
  });

  it('is that train’s whose telescope or filter it names, and no other’s', () => {
    expect(ownerOf('journal.log', ['ready: tall glass', 'off to tall glass'])?.train).toBe('heron');
    expect(ownerOf('journal.log', ['filter OIII', 'filter OIII of NGC 281'])?.train).toBe('wren');
    expect(ownerOf('journal.log', ['filter OIII', 'filter Ha', 'filter OIII'])).toBeUndefined();
  });

  it('is nobody’s where it tells of both, of neither, or of every second', () => {
    expect(ownerOf('journal.log', [...beginsOf('heron', 0), ...beginsOf('wren', 0)])).toBeUndefined();
    expect(ownerOf('journal.log', ['cloud'])).toBeUndefined();
    const every = Array.from(
      { length: 20_000 },
      (_, i) => `${new Date(DUSK_MS + i * 1000).toISOString().slice(11, 19)} x`,
    );
    expect(ownerOf('journal.log', every)).toBeUndefined();
  });

  it('is that train’s whose name the file bears, whatever it says', () => {
    expect(ownerOf('wren.log', beginsOf('heron', 0))).toEqual({ train: 'wren' });
  });
});
