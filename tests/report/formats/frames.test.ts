import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { frames } from '../../../src/report/formats/frames.js';
import { namedNight } from '../../support/nights.js';
import { starryNight } from '../../support/starry-night.js';
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

  it('holds what the pixels said, the evidence that judged, and a weight', async () => {
    const night = starryNight('twin-night', (i) => (i === 0 ? { fwhm: 2.75, elongation: 1.9, flux: 0.5 } : {}));
    const [first, ...more] = night.accounts.lights;
    if (first === undefined) throw new Error('no lights');
    const trailed = {
      kind: 'trailed',
      by: 'pixels',
      verdict: 'lost',
      span: first.exposure,
      overlapMs: 48_000,
      causedBy: 'heron',
      evidence: 'axis ratio 1.90',
      certainty: 'measured',
      sources: [],
    } as const;
    const cleared = [{ kind: 'guiding-off', by: 'pixels', evidence: 'the stars are round' }] as const;
    const lights = [
      { ...first, verdict: 'lost' as const, causes: [trailed], cleared: [] },
      ...more.map((light, i) => (i === 0 ? { ...light, cleared, file: undefined } : light)),
    ];
    const { data } = Papa.parse<Record<string, string>>(
      String(await frames.render(altered(night, { accounts: { lights } }), CONTEXT)),
      { header: true, skipEmptyLines: true },
    );
    expect(data[0]).toMatchObject({
      written: 'yes',
      causes: 'trailed',
      judged_by: 'pixels',
      caused_by: 'heron',
      overlap_seconds: '48',
      evidence: 'axis ratio 1.90',
      weight: '0',
      fwhm_px: '2.75',
      elongation: '1.9',
      stars: '800',
      flux: '0.5',
      background_adu: '500',
      noise_adu: '12',
    });
    const scale = night.gathered.trains.find(({ id }) => id === first.train)?.pixelScaleArcsec ?? NaN;
    expect(Number(data[0]?.fwhm_arcsec)).toBeCloseTo(2.75 * scale, 3);
    expect(data[1]).toMatchObject({ written: 'no', weight: '', cleared: 'guiding-off by pixels: the stars are round' });
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
