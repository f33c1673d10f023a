import { existsSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { readNights } from '../../src/pipeline.js';
import { toRecord } from '../../src/record/index.js';
import { SAMPLES, sampleFiles } from '../support/generator/samples.js';
import type { Truth } from '../support/generator/truth.js';
import { sampleFolder, sampleNight, TEST_NOW_MS } from '../support/sample-night.js';
import { copyStarNight } from '../support/star-night.js';
import { tempFolder } from '../support/temp-folder.js';
import { inFull } from '../support/runs.js';
import { expectTruth } from './truth-check.js';

function truthOfSample(name: string): Truth {
  return JSON.parse(readFileSync(join(sampleFolder(name), 'expected.json'), 'utf8')) as Truth;
}

/** Frames whose pixels are drawn anew: one that a dither trails is among them. Of the rest the headers. */
const isDrawn = inFull(
  () => true,
  (path: string): boolean => /_00(?:04|15)\./.test(path),
);
const headerOf = (bytes: Buffer): Buffer => bytes.subarray(0, bytes.indexOf('END'.padEnd(80)));

describe('the sample sessions', () => {
  it.each(SAMPLES.map((s) => [s.name, s] as const))(
    '%s is what the seeded generator writes: `npm run samples`',
    (name, sample) => {
      const folder = sampleFolder(name);
      const written = sampleFiles(sample, isDrawn);
      const onDisk = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((f) =>
        statSync(join(folder, f)).isFile(),
      );
      expect(onDisk.map((f) => f.replaceAll('\\', '/')).sort()).toEqual([...written.keys()].sort());
      for (const [path, content] of written) {
        // Compressors differ between machines; what they hold must not.
        const plain = (bytes: Buffer) => (path.endsWith('.gz') ? gunzipSync(bytes) : bytes);
        const whole = [readFileSync(join(folder, path)), Buffer.from(content)].map(plain);
        const [there, now] =
          sample.name === 'star-night' && path.endsWith('.gz') && !isDrawn(path) ? whole.map(headerOf) : whole;
        expect(now !== undefined && there?.equals(now), path).toBe(true);
      }
    },
    // The sample with drawn pixels takes its time on a busy machine.
    120_000,
  );
});

describe('twin-night', () => {
  it('is reported as it truly was', async () => {
    const record = toRecord(await sampleNight('twin-night'), 'test');
    expectTruth(record, truthOfSample('twin-night'));
    expect(record.warnings).toEqual([]);
  });

  it('holds every misfortune it is there for', () => {
    const truth = truthOfSample('twin-night');
    expect(truth.harmed.some((h) => h.train === 'wren' && h.causedBy.includes('heron'))).toBe(true);
    expect(truth.harmed.some((h) => h.verdict === 'doubtful')).toBe(true);
    expect(truth.harmed.some((h) => h.kinds.includes('cut-short'))).toBe(true);
    expect(truth.ledger.heron?.hold).toBeGreaterThan(0);
    expect(truth.dithers.length).toBeGreaterThan(20);
  });
});

describe('headers-only', async () => {
  const night = await sampleNight('headers-only');
  const record = toRecord(night, 'test');
  const truth = truthOfSample('headers-only');

  it('gives the integration as it truly was, and says that it is from headers alone', () => {
    expect(record.headersOnly).toBe(true);
    expect(record.warnings.map((w) => w.code)).toEqual(['no-rig-file']);
    expect(record.totals.reduce((s, t) => s + t.seconds.kept, 0)).toBe(
      truth.totals.reduce((s, t) => s + t.seconds.kept, 0),
    );
    expect(record.totals.map((t) => `${t.target} ${t.filter} ${t.train} ${t.frames.taken}`).sort()).toEqual(
      truth.totals.map((t) => `${t.target} ${t.filter} ${t.train} ${t.frames.taken}`).sort(),
    );
  });

  it('infers nearly every dither and its waits, and marks them so', () => {
    expect(record.dithers.every((d) => d.inferred)).toBe(true);
    const found = truth.dithers.filter((t) =>
      record.dithers.some((d) => Math.abs(Date.parse(d.begin) - Date.parse(t.begin)) < 3000),
    );
    expect(found.length).toBeGreaterThanOrEqual(0.9 * truth.dithers.length);
    for (const cycle of found) {
      const inferred = record.dithers.find((d) => Math.abs(Date.parse(d.begin) - Date.parse(cycle.begin)) < 3000)!;
      for (const [train, wait] of Object.entries(cycle.waits))
        expect(Math.abs((inferred.waits[train] ?? NaN) - wait)).toBeLessThan(3);
    }
  });

  it('says of every inferred stretch of the ledger that it is inferred', () => {
    for (const { segments } of night.accounts.ledgers) {
      for (const s of segments) {
        if (['readout', 'dither', 'dither-wait', 'filter', 'focus'].includes(s.account))
          expect(s.certainty).toBe('inferred');
      }
    }
  });
});

describe('mixed-dialects', async () => {
  const night = await sampleNight('mixed-dialects');
  const record = toRecord(night, 'test');

  it('is reported as it truly was, though three formats, local time, a change of clocks and a fast clock stand between', () => {
    expectTruth(record, truthOfSample('mixed-dialects'));
  });

  it('tells of the companion’s clock and of nothing else', () => {
    expect(record.warnings.map((w) => w.code)).toEqual(['clock-offset']);
    expect(night.timeline.clocks.filter((c) => c.corrected)).toMatchObject([
      { train: 'wren', source: 'log', aheadMs: 7400 },
      { train: 'wren', source: 'headers', aheadMs: 7400 },
    ]);
  });

  it('reads the guiding from pixels, with the scale that stands in the log', () => {
    // 0.7″ of total RMS is what the simulation made; the trace is written to a thousandth of a pixel.
    expect(night.accounts.guidingOverall?.totalRmsArcsec).toBeGreaterThan(0.67);
    expect(night.accounts.guidingOverall?.totalRmsArcsec).toBeLessThan(0.73);
  });
});

describe('star-night', async () => {
  const [cacheFolder, session] = [tempFolder(), tempFolder()];
  copyStarNight(session);
  const [night] = await readNights(session, {
    nowMs: TEST_NOW_MS,
    replay: null,
    stars: { by: 'strips', threads: 0, cacheFolder },
  });
  const drawn = new Map(
    Object.entries(truthOfSample('star-night').drawn ?? {}).filter(([file]) => existsSync(join(session, file))),
  );
  const measured = (night?.accounts.lights ?? []).flatMap(({ id, file = '' }) => {
    const stars = night?.stars?.frames[id];
    const truth = drawn.get(file);
    return stars && truth ? [{ file, stars, truth }] : [];
  });
  for (const folder of [cacheFolder, session]) rmSync(folder, { recursive: true, force: true });

  it('has every frame measured', () => {
    expect(measured).toHaveLength(drawn.size);
    expect(night?.stars?.warnings).toEqual([]);
  });

  it('is found to have the widths, fluxes and trails that were drawn', () => {
    for (const { file, stars, truth } of measured) {
      if (truth.trail < 2) expect(Math.abs((stars.fwhm ?? NaN) / truth.fwhm - 1), file).toBeLessThan(0.02);
      else expect(stars.elongation, file).toBeGreaterThan(1.2);
      // A trail spills out of the aperture, and too few of its stars may stand where they stood.
      if (truth.trail < 2) expect(Math.abs((stars.flux ?? NaN) - truth.flux), file).toBeLessThan(0.04);
      else if (stars.flux !== null) expect(Math.abs(stars.flux - truth.flux), file).toBeLessThan(0.12);
    }
  });
});
