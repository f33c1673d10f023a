import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { frames } from '../../../src/report/formats/frames.js';
import { namedNight } from '../../support/nights.js';
import { altered } from '../../support/altered.js';

const CONTEXT = { nowMs: 0, version: '1.2.3' };

describe('frames.csv', () => {
  it('has a row a light, read back the same', async () => {
    const night = namedNight('twin-night');
    const { data, meta } = Papa.parse<Record<string, string>>(String(await frames.render(night, CONTEXT)), {
      header: true,
      skipEmptyLines: true,
    });
    expect(data).toHaveLength(night.accounts.lights.length);
    expect(meta.fields).toContain('moon_separation_deg');
    for (const [index, row] of data.entries()) {
      const frame = night.accounts.lights[index];
      expect(row.frame).toBe(frame?.id);
      expect(Date.parse(row.begin_utc ?? '')).toBe(frame?.exposure.startMs);
      expect(row.verdict).toBe(frame?.verdict);
      expect(Number(row.altitude_deg)).toBeCloseTo(frame?.sky?.altitudeDeg ?? 0, 3);
    }
  });

  it('lets no spreadsheet run a name as a formula', async () => {
    const night = namedNight('two-hours');
    const lights = night.accounts.lights.map((frame, index) => ({
      ...frame,
      target: ['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', 'M 33'][index % 6] ?? '',
    }));
    const evil = altered(night, { accounts: { lights } });
    const { data } = Papa.parse<Record<string, string>>(String(await frames.render(evil, CONTEXT)), {
      header: true,
      skipEmptyLines: true,
    });
    expect(data.slice(0, 6).map((row) => row.target)).toEqual(["'=1+1", "'+1", "'-1", "'@SUM(A1)", "'\t=1", 'M 33']);
  });

  it('leaves a cell empty where nothing is known', async () => {
    const text = String(await frames.render(namedNight('no-site'), CONTEXT));
    expect(text).not.toMatch(/NaN|undefined|null/);
    expect(text.endsWith('\r\n')).toBe(true);
  });
});
