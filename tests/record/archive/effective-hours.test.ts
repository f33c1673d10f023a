/** Effective hours of an archive add up against one reference: one sub, one dark sky, one zenith sky of each filter. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { archivedNights } from '../../../src/archive.js';
import { sum } from '../../../src/model/index.js';
import { recordText, type SessionRecord } from '../../../src/record/index.js';
import { frameOf, sessionOf } from '../../support/records.js';
import { cleanUp, tempFolder } from '../../support/temp-folder.js';

cleanUp();

type Basis = NonNullable<SessionRecord['totals'][number]['effectiveBasis']>;

/** Ten kept frames of 240 s, each worth half of that where sky and air were measured. */
function nightOf(night: string, zenith: Pick<Basis, 'zenithSky' | 'zenithFrom'>, referenceSub = 300): SessionRecord {
  const frames = Array.from({ length: 10 }, (_, i) =>
    frameOf(night, i, { effectiveSeconds: 120, effectiveFrom: 'measured' }),
  );
  const record = sessionOf(night, night, frames, { referenceSub, darkSky: { magnitude: 21, assumed: true } });
  const doubts =
    zenith.zenithFrom === 'night' ? (['clear-nights', 'sky-of-nights'] as const) : (['clear-nights'] as const);
  return {
    ...record,
    totals: record.totals.map((total) => ({
      ...total,
      effectiveSeconds: 1200,
      effectiveRange: { low: 1100, high: 1300, doubts: [...doubts] },
      effectiveBasis: {
        sky: 'measured',
        transparency: 'measured',
        noise: 'read-noise',
        referenceSeconds: referenceSub,
        ...zenith,
      },
    })),
  };
}

async function keptSeconds(
  records: readonly SessionRecord[],
): Promise<{ kept: number; codes: string[]; byClock: number }> {
  const archive = tempFolder();
  for (const record of records) writeFileSync(join(archive, `${record.night}.json`), recordText(record));
  const { nights, warnings } = await archivedNights(archive, { counting: 'effective' });
  return {
    kept: sum(nights.flatMap((n) => n.totals.map(({ ms }) => ms.kept))) / 1000,
    byClock: sum(nights.map(({ keptWithoutEffective = NaN }) => keptWithoutEffective)),
    codes: warnings.map(({ code }) => code),
  };
}

const fixed = { zenithSky: 0.02, zenithFrom: 'rig-file' } as const;

describe('effective hours of many nights', () => {
  it('add up where one zenith sky is fixed for all', async () => {
    const nights = ['2026-09-01', '2026-09-02'].map((night) => nightOf(night, fixed));
    expect(await keptSeconds(nights)).toEqual({ kept: 2 * 1200, byClock: 0, codes: [] });
  });

  it('leave a night by the clock whose levels count against its own dark sky', async () => {
    const own = { zenithSky: 0.05, zenithFrom: 'night' } as const;
    const nights = [nightOf('2026-09-01', own), nightOf('2026-09-02', fixed)];
    expect(await keptSeconds(nights)).toEqual({ kept: 2400 + 1200, byClock: 10, codes: [] });
  });

  it('leave by the clock, and name, what was counted in another sub or under another fixed sky', async () => {
    for (const other of [nightOf('2026-09-01', fixed, 60), nightOf('2026-09-01', { ...fixed, zenithSky: 0.03 })])
      expect(await keptSeconds([other, nightOf('2026-09-02', fixed)])).toEqual({
        kept: 2400 + 1200,
        byClock: 10,
        codes: ['effective-reference'],
      });
  });
});
