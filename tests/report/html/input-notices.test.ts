import { describe, expect, it } from 'vitest';
import type { Night, Warning } from '../../../src/model/index.js';
import { inputNotices } from '../../../src/report/html/view/input-notices.js';
import { sampleNight } from '../../support/sample-night.js';

async function noticesWith(warnings: readonly Warning[]): Promise<string[]> {
  const night: Night = await sampleNight('twin-night');
  const timeline = { ...night.timeline, warnings: [...night.timeline.warnings, ...warnings] };
  return inputNotices({ ...night, timeline });
}

function unended(count: number): Warning[] {
  return Array.from({ length: count }, (_, i) => ({
    code: 'unclosed-activity',
    message: 'dither-begin has no dither-end',
    source: { file: 'logs/hut.log', line: i + 1 },
  }));
}

describe('what the first screen says of the inputs', () => {
  it('is that a log’s beginnings and ends do not meet, where ten lines are so: its dialect is likely wrong', async () => {
    expect((await noticesWith(unended(9))).join()).not.toContain('logs/hut.log');
    const said = (await noticesWith(unended(10))).join();
    expect(said).toContain(
      '10 lines of logs/hut.log begin something that never ends, or end something that never ' + 'began',
    );
    expect(said).toContain('dialect check');
  });

  it('is that lights are cut off, and that frames are counted nowhere where they are many', async () => {
    const night = await sampleNight('twin-night');
    const lights = night.accounts.lights.map((light, i) =>
      i === 3 && light.header ? { ...light, header: { ...light.header, isCutOff: true } } : light,
    );
    expect(inputNotices({ ...night, accounts: { ...night.accounts, lights } })).toContainEqual(
      expect.stringContaining(`1 light is truncated, with pixels missing (${lights[3]?.file})`),
    );
    const said = await noticesWith([{ code: 'missing-date', message: '', source: { file: 'a.fits' }, count: 50 }]);
    expect(said).toContain('50 frames are not counted anywhere: 50 without a date (a.fits).');
    expect(await noticesWith([{ code: 'missing-date', message: '', source: { file: 'a.fits' } }])).toEqual([]);
  });

  it('is that a log names trains which the rig does not have, and that a filter has two names', async () => {
    const said = await noticesWith([
      { code: 'unknown-train', message: 'the log speaks of left' },
      { code: 'filters-apart', message: '“Ha 5nm” (heron) and “Ha” (wren) are counted as 2 filters' },
    ]);
    expect(said).toContain('The log speaks of left.');
    expect(said).toContain('“Ha 5nm” (heron) and “Ha” (wren) are counted as 2 filters.');
  });
});
