/**
 * Whole nights under the Moon, from files to the night record.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { sum, weighedLights, weighedTotals, type Night } from '../../src/model/index.js';
import { readNights } from '../../src/pipeline.js';
import { nightRecordSchema, toRecord } from '../../src/record/index.js';
import { writeFits } from '../support/fits-writer.js';
import { FULL_MOON, MOON_RISES } from '../support/generator/moonlit.js';
import type { Scenario } from '../support/generator/scenario.js';
import type { SimulatedFrame } from '../support/generator/simulation.js';
import { writeFiles } from '../support/generator/samples.js';
import { writeSession } from '../support/generator/write-session.js';
import { TEST_NOW_MS } from '../support/sample-night.js';

const root = mkdtempSync(join(tmpdir(), 'moonlit-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));

async function nightOf(scenario: Scenario, name: string, more: Readonly<Record<string, Buffer>> = {}): Promise<Night> {
  const folder = join(root, name);
  writeFiles(folder, new Map([...writeSession(scenario).files, ...Object.entries(more)]));
  const [night] = await readNights(folder, { nowMs: TEST_NOW_MS, replay: null });
  if (!night) throw new Error(`${name} has no night`);
  return night;
}

const worthOf = (night: Night, filter: string) => weighedTotals(night).find((t) => t.filter === filter)?.worth;

describe('a night of full Moon', async () => {
  const night = await nightOf(FULL_MOON, 'full-moon');

  it('brightens the sky by two to four magnitudes, bluest most', () => {
    for (const { worth } of weighedLights(night)) {
      expect(worth?.moonBrighteningMag).toBeGreaterThan(2);
      expect(worth?.moonBrighteningMag).toBeLessThan(4);
    }
    const middle = (filter: string) => {
      const all = weighedLights(night)
        .filter((f) => f.filter === filter)
        .map((f) => f.worth.moonBrighteningMag);
      return sum(all) / all.length;
    };
    expect(middle('B')).toBeGreaterThan(middle('G'));
    expect(middle('G')).toBeGreaterThan(middle('R'));
  });

  it('leaves less than a tenth of the broad bands, and more of hydrogen', () => {
    for (const filter of ['L', 'R', 'G', 'B']) {
      const total = weighedTotals(night).find((t) => t.filter === filter);
      expect((total?.worth?.effectiveMs ?? NaN) / (total?.ms.kept ?? NaN), filter).toBeLessThan(0.1);
    }
    const hydrogen = weighedTotals(night).find((t) => t.filter === 'Ha');
    expect((hydrogen?.worth?.effectiveMs ?? NaN) / (hydrogen?.ms.kept ?? NaN)).toBeGreaterThan(0.15);
  });

  it('is reported in the record, per frame and per total', () => {
    const record = toRecord(night, '0.0.0-test');
    expect(nightRecordSchema.safeParse(JSON.parse(JSON.stringify(record))).success).toBe(true);
    expect(record.darkSky).toEqual({ magnitude: 21.4, assumed: false });
    for (const total of record.totals) {
      const kept = record.frames.filter(
        (f) =>
          f.verdict === 'kept' && f.train === total.train && f.filter === total.filter && f.target === total.target,
      );
      expect(total.effectiveSeconds).toBeCloseTo(sum(kept.map((f) => f.effectiveSeconds ?? NaN)), 6);
      expect(total.effectiveBasis).toEqual({
        sky: 'modelled',
        transparency: 'modelled',
        noise: 'read-noise',
        referenceSeconds: expect.any(Number),
        zenithSky: expect.any(Number),
        zenithFrom: 'model',
      });
    }
    for (const frame of record.frames) expect(frame.moonBrightening).toBeGreaterThan(2);
  });

  it('costs both trains hours; no order of filters would have helped, but a narrow band would', () => {
    const findings = night.findings.ranked.filter((f) => f.id === 'moon-cost');
    expect(findings).toHaveLength(2);
    for (const finding of findings) {
      expect(finding.costMs).toBeGreaterThan(5 * 3_600_000);
      expect(finding.advice).toMatch(
        /^Choose a target far from the Moon; on this one image through (Ha|SII) instead of broadband filters\./,
      );
      expect(finding.winMs).toBeGreaterThan(1_200_000);
      expect(finding.winMs).toBeLessThan(finding.costMs);
    }
  });
});

describe('a night on which the Moon rises', async () => {
  const night = await nightOf(MOON_RISES, 'moon-rises');

  it('costs nothing before moonrise', () => {
    const riseMs = night.sky.almanac?.moon.riseMs ?? NaN;
    const before = weighedLights(night).filter((f) => f.exposure.endMs < riseMs);
    expect(before.length).toBeGreaterThan(20);
    for (const { worth } of before) {
      expect(worth?.moonBrighteningMag).toBe(0);
      expect(worth?.share).toBe(worth?.moonlessShare);
    }
  });

  it('says that broad bands before the Moon and hydrogen under it would have lost less', () => {
    const finding = night.findings.ranked.find((f) => f.id === 'moon-cost' && f.title.includes('heron'));
    expect(finding?.winMs).toBeGreaterThan(30 * 60_000);
    expect(finding?.advice).toMatch(/take B first, then L, then Ha: /);
    const [order] = night.worth?.orders ?? [];
    const blue = order?.filters.find((f) => f.filter === 'B');
    expect(blue?.bestEffectiveMs).toBeGreaterThan(2 * (blue?.effectiveMs ?? NaN));
  });

  it('never adds effective time up over filters or trains', () => {
    for (const { worth, ms } of weighedTotals(night)) expect(worth?.effectiveMs).toBeLessThan(ms.kept);
  });
});

describe('a night whose headers carry levels and fluxes', async () => {
  const BIAS_ADU = 512;
  const [gain, dark] = [0.25, 0.001];
  /** The truth: this sky, electrons a second, and a cloud that passes for an hour and dims the stars to a half. */
  const skyElectrons = ({ train }: SimulatedFrame) => (train === 'heron' ? 0.8 : 1.6);
  const cloud = ({ beginMs }: SimulatedFrame) =>
    beginMs > Date.UTC(2026, 9, 30, 19) && beginMs < Date.UTC(2026, 9, 30, 20) ? 0.5 : 1;
  const seconds = (frame: SimulatedFrame) => (frame.endMs - frame.beginMs) / 1000;
  const scenario: Scenario = {
    ...MOON_RISES,
    cards: (frame) => [
      ['BACKGRND', BIAS_ADU + ((skyElectrons(frame) + dark) * seconds(frame)) / gain],
      ['STARFLUX', 5000 * seconds(frame) * cloud(frame)],
      ['NSTARS', 900],
    ],
  };
  const bias = writeFits({
    cards: [
      ['IMAGETYP', 'BIAS'],
      ['DATE-OBS', '2026-10-29T10:00:00'],
      ['EXPTIME', 0],
      ['GAIN', 100],
      ['OFFSET', 50],
      ['XBINNING', 1],
      ['YBINNING', 1],
      ['BACKGRND', BIAS_ADU],
    ],
    width: 6,
    height: 4,
    bitpix: 16,
  });
  const night = await nightOf(scenario, 'levels', { 'frames/heron/bias/bias_0001.fits': bias });

  it('takes heron’s sky from the levels, because a bias frame tells the pedestal', () => {
    for (const frame of weighedLights(night).filter((f) => f.train === 'heron')) {
      expect(frame.worth?.skyFrom).toBe('measured');
      expect(frame.worth?.skyElectronsPerSecond).toBeCloseTo(0.8, 3);
    }
    expect(worthOf(night, 'Ha')?.sky).toBe('measured');
  });

  it('declines wren’s levels, for want of one, and says so', () => {
    expect(worthOf(night, 'OIII')?.sky).toBe('modelled');
    const note = night.worth?.measures.find((m) => m.train === 'wren' && m.measure === 'level');
    expect(note).toMatchObject({ used: false, how: expect.stringContaining('pedestal') });
  });

  it('takes the cloud from the stars’ flux', () => {
    const clouded = weighedLights(night).filter(
      (f) => f.exposure.startMs > Date.UTC(2026, 9, 30, 19) && f.exposure.startMs < Date.UTC(2026, 9, 30, 20),
    );
    expect(clouded.length).toBeGreaterThan(5);
    for (const { worth } of clouded) {
      expect(worth?.transparencyFrom).toBe('measured');
      expect(worth?.transparency).toBeLessThan(0.55);
    }
  });

  it('does not take transparency from a count of stars', () => {
    expect(night.worth?.measures.find((m) => m.measure === 'star-count')).toMatchObject({ used: false });
  });
});
