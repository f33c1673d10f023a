import { describe, expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 20);
const stamp = (s: number): string => new Date(T0 + s * 1000).toISOString().slice(0, 19);
/** One program words it by what it has measured: none of these lines follows most exposures. */
const MEASURED = ['', ', 812 stars', ', sky 1204', ', eccentric'];

describe('frames of which only the beginning and the file are reported', () => {
  it('are saved, however long their readout takes', async () => {
    const lines = Array.from({ length: 60 }, (_, i) => [
      `${stamp(i * 100)} opened for 90 s of M 45 in L`,
      `${stamp(i * 100 + 94)} stored m45_${i}.fits${MEASURED[i % MEASURED.length] ?? ''}`,
      ...(i % 6 === 5 ? [`${stamp(i * 100 + 95)} nothing for me to do, the other one dithers`] : []),
    ]).flat();
    const { yaml } = drafted(lines);
    const log = await read(yaml, `${lines.join('\n')}\n`, { zone: 'utc' });
    expect(brief(log).filter((line) => line.includes(' frame-saved'))).toHaveLength(60);
  });

  // Plain sentences, no source: what programs say of a full disk.
  it.each([
    ['saved', (file: string) => `ERROR could not write ${file}: no space left on device`],
    ['gespeichert', (file: string) => `FEHLER ${file} nicht gespeichert, Platte voll`],
  ])('are not saved where the line says that they could not be: after %s', async (word, failure) => {
    const lines = Array.from({ length: 40 }, (_, i) => [
      `${stamp(i * 100)} exposure started: 90 s through L, target M 45`,
      `${stamp(i * 100 + 90)} exposure finished`,
      `${stamp(i * 100 + 92)} ${i < 36 ? `${word} m45_${i}.fits` : failure(`m45_${i}.fits`)}`,
      // What a disk holds at any time.
      ...(i % 4 === 0 ? [`${stamp(i * 100 + 93)} disk full: ${60 + i} %`] : []),
    ]).flat();
    const { yaml } = drafted(lines);
    const told = brief(await read(yaml, `${lines.join('\n')}\n`, { zone: 'utc' }));
    expect(told.filter((line) => line.includes(' frame-saved'))).toHaveLength(36);
    expect(told.filter((line) => line.includes(' exposure-abort'))).toHaveLength(4);
  });
});
