import { describe, expect, it } from 'vitest';
import type { TrainConfig } from '../../src/config/index.js';
import type { TrainFrame } from '../../src/gather/assign-trains.js';
import { readHeadersInZone } from '../../src/gather/header-zone.js';
import { interval } from '../../src/model/index.js';

/** Madrid went back from 03:00 (UTC+2) to 02:00 (UTC+1) at 01:00 UTC; tz database. */
const BACK_MS = Date.UTC(2026, 9, 25, 1);
const train: TrainConfig = {
  id: 'wren',
  role: 'companion',
  filterWidthsNm: {},
  filterWavelengthsNm: {},
  frames: ['**/*'],
  match: {},
  logs: [],
};
const TRAINS = [{ ...train, headerTimeZone: 'Europe/Madrid' }];

/** Subs of 180 s every 190 s from two hours before the change to two hours after it, as the wall clock had them. */
function night(fileOf: (i: number) => string) {
  const utcMs = Array.from({ length: 76 }, (_, i) => BACK_MS - 7_200_000 + i * 190_000);
  const frames = utcMs.map((atMs, i): TrainFrame => {
    const writtenMs = atMs + (atMs < BACK_MS ? 7_200_000 : 3_600_000);
    const file = fileOf(i);
    return {
      file,
      sizeBytes: 5760,
      headerHash: file,
      kind: 'light',
      train: 'wren',
      exposure: interval(writtenMs, writtenMs + 180_000),
    };
  });
  return { frames, utcMs };
}

const startsOf = (frames: readonly TrainFrame[]) => frames.map(({ exposure }) => exposure?.startMs);

describe('headers in local time', () => {
  it('are read across the hour that comes twice by the numbers of their files', () => {
    const { frames, utcMs } = night((i) => `raw/img-${i + 1}.fits`);
    const read = readHeadersInZone(frames, TRAINS);
    expect(startsOf(read.frames)).toEqual(utcMs);
    expect(read.warnings).toMatchObject([{ code: 'header-time-ambiguous', count: 38 }]);
    expect(read.warnings[0]?.message).toMatch(/by the files’ numbers 19 of them were taken in the second passage/);
    // The order in which files are found is not that in which they were taken.
    const shuffled = [...frames].reverse();
    expect(startsOf(readHeadersInZone(shuffled, TRAINS).frames)).toEqual([...utcMs].reverse());
  });

  it.each([
    ['a folder for each filter', (i: number) => `${['Ha', 'OIII', 'SII'][i % 3]}/wren_${i + 1}_NGC281.fits`],
    ['the filter in the name', (i: number) => `raw/wren_${['Ha', 'OIII'][Math.floor(i / 3) % 2]}_180s_${i + 1}.fits`],
  ])(
    'are read across it by the count of the train where files of one name do not follow each other: %s',
    (_, fileOf) => {
      const { frames, utcMs } = night(fileOf);
      expect(startsOf(readHeadersInZone(frames, TRAINS).frames)).toEqual(utcMs);
    },
  );

  it('are read across it by a count that starts again with each target', () => {
    const { frames, utcMs } = night((i) => `${['L', 'R'][i % 2]}/${i < 30 ? i + 1 : i - 29}.fits`);
    const named = frames.map((frame, i) => ({ ...frame, target: i < 30 ? 'NGC 281' : 'M 33' }) as TrainFrame);
    expect(startsOf(readHeadersInZone(named, TRAINS).frames)).toEqual(utcMs);
  });

  it('are taken for the first passage where numbers do not follow the time', () => {
    const { frames, utcMs } = night((i) => `raw/img-${(i * 37) % 76}.fits`);
    const read = readHeadersInZone(frames, TRAINS);
    expect(read.warnings[0]?.message).toContain('the first passage was taken');
    for (const [i, startMs] of startsOf(read.frames).entries()) {
      const isSecondPass = utcMs[i]! >= BACK_MS && utcMs[i]! < BACK_MS + 3_600_000;
      expect(startMs).toBe(isSecondPass ? utcMs[i]! - 3_600_000 : utcMs[i]);
    }
  });

  it('are known by the hour that comes twice where no rig file tells of them', () => {
    const { frames, utcMs } = night((i) => `raw/img-${i + 1}.fits`);
    const read = readHeadersInZone(frames, [train], 'Europe/Madrid');
    expect(startsOf(read.frames)).toEqual(utcMs);
    expect(read.warnings).toMatchObject([{ code: 'header-local-time', count: 76, source: { card: 'DATE-OBS' } }]);
    expect(read.warnings[0]?.message).toContain('set headerTimeZone: Europe/Madrid for wren');
    // A zone whose clocks do not go back in this night proves nothing, nor do numbers that do not follow the time.
    expect(readHeadersInZone(frames, [train], 'Africa/Johannesburg')).toEqual({ frames, warnings: [] });
    const mixed = night((i) => `raw/img-${(i * 37) % 76}.fits`).frames;
    expect(readHeadersInZone(mixed, [train], 'Europe/Madrid')).toEqual({ frames: mixed, warnings: [] });
    // Frames that are in UTC already overlap nowhere, whatever the clocks on the wall do.
    const inUtc = frames.map((frame, i) => ({ ...frame, exposure: interval(utcMs[i]!, utcMs[i]! + 180_000) }));
    expect(readHeadersInZone(inUtc, [train], 'Europe/Madrid')).toEqual({ frames: inUtc, warnings: [] });
  });

  it('are left alone on trains that have no such zone, and on other nights are read without a word', () => {
    const { frames } = night((i) => `raw/img-${i + 1}.fits`);
    expect(readHeadersInZone(frames, [train])).toEqual({ frames, warnings: [] });
    const other = frames.slice(0, 9).map((f) => ({ ...f, train: 'heron' }));
    expect(readHeadersInZone(other, TRAINS).frames).toEqual(other);
    expect(readHeadersInZone(frames.slice(0, 9), TRAINS).warnings).toEqual([]);
  });
});
