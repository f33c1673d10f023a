import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { nightOfRecord } from '../../src/again.js';
import type { FrameStars, Night } from '../../src/model/index.js';
import { readNights } from '../../src/pipeline.js';
import { nightRecordSchema, restoreParts, toRecord } from '../../src/record/index.js';
import { whichFrames } from '../../src/report/figures/which-frames.js';
import { renderHtml } from '../../src/report/index.js';
import { shareNight } from '../../src/share.js';
import { altered } from '../support/altered.js';
import { digested, withoutDrawing } from '../support/drawn-once.js';
import { namedNight } from '../support/nights.js';
import { replayedNight } from '../support/replayed-night.js';
import { some } from '../support/runs.js';
import { sampleFolder, sampleNight, TEST_NOW_MS } from '../support/sample-night.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

const OPTIONS = { share: false, nowMs: TEST_NOW_MS, version: '0.0.0' };
/** With digests of its charts, which say the same of them. */
const pageOf = (night: Night): Promise<string> => withoutDrawing(() => renderHtml(night, OPTIONS), digested);
const textOf = (night: Night): string => JSON.stringify(toRecord(night, '0.0.0'));
const publicKeys = (night: Night) => JSON.parse(JSON.stringify(toRecord(night, '0.0.0', false))) as unknown;

/** What was measured on a frame. */
const STARS = {
  by: 'full',
  count: 812,
  fwhm: 2.8,
  fwhmUncertainty: 0.02,
  halfFlux: 1.6,
  elongation: 1.08,
  direction: 41,
  agreement: 0.2,
  background: 612.5,
  noise: 9.1,
  flux: 0.97,
  saturated: 0.0001,
  shift: { x: 1.25, y: -3.5, rotation: 0.01, matched: 640 },
} as const;

/** What its record keeps of it. */
const partsOf = (night: Night) => {
  const { stages } = toRecord(night, '0.0.0');
  return stages && restoreParts(stages);
};

describe('a night made again from its record', () => {
  it.each(some(['mixed-dialects', 'headers-only', 'twin-night'], 1))(
    'is the night it was, page and record: %s',
    async (name) => {
      const night = await sampleNight(name);
      const { night: again } = await nightOfRecord(textOf(night));
      expect(publicKeys(again)).toEqual(publicKeys(night));
      expect(await pageOf(again)).toBe(await pageOf(night));
      expect(partsOf(again)).toEqual(partsOf(night));
    },
  );

  it('is judged by another rig file as its session would have been', async () => {
    const folder = sampleFolder('twin-night');
    const strict = `${readFileSync(join(folder, 'rig.yaml'), 'utf8').replace('darkness: nautical', 'darkness: astronomical')}\nrules: { guidingOffGrace: 2, roughGuiding: 0.3 }\n`;
    const rigFile = join(tempFolder(), 'strict.yaml');
    writeFileSync(rigFile, strict);
    const [expected] = await readNights(folder, { nowMs: TEST_NOW_MS, rigFile });
    if (!expected) throw new Error('the sample holds no night');
    const { night } = await nightOfRecord(textOf(await sampleNight('twin-night')), {
      name: 'strict.yaml',
      text: strict,
    });
    expect(publicKeys(night)).toEqual(publicKeys(expected));
    expect(night.accounts.totals).not.toEqual((await sampleNight('twin-night')).accounts.totals);
  });

  it('keeps measured stars', async () => {
    const plain = namedNight('two-hours');
    const [light] = plain.accounts.lights;
    if (!light) throw new Error('the night has no lights');
    const night: Night = { ...plain, stars: { frames: { [light.id]: STARS }, pointings: [], pairs: [], warnings: [] } };
    const record = toRecord(night, '0.0.0');
    expect(nightRecordSchema.safeParse(JSON.parse(JSON.stringify(record))).error).toBeUndefined();
    expect(record.frames.find((f) => f.file === light.file)?.stars).toEqual(STARS);
    expect((await nightOfRecord(JSON.stringify(record))).night.stars).toEqual(night.stars);
  });

  it('needs less than 1.5 MB for 300 frames: weighed, replayed, with findings, and stars on each', () => {
    const plain = replayedNight('twin-night');
    const { lights } = plain.accounts;
    expect(lights.length).toBeGreaterThanOrEqual(300);
    // Figures of all their digits, no two alike: the parts that are packed must not gain by it.
    const starsOf = (i: number): FrameStars => ({
      ...STARS,
      fwhm: 2.8 + Math.sin(i),
      halfFlux: 1.6 + Math.cos(i),
      background: 612.5 + Math.sin(3 * i),
      flux: 0.9 + Math.cos(5 * i) / 10,
      shift: { ...STARS.shift, x: Math.sin(7 * i), y: Math.cos(7 * i) },
    });
    const frames = Object.fromEntries(lights.map(({ id }, i) => [id, starsOf(i)]));
    const night: Night = { ...plain, stars: { frames, pointings: [], pairs: [], warnings: [] } };
    expect(Buffer.byteLength(JSON.stringify(toRecord(night, '0.0.0'), null, 2))).toBeLessThan(1_500_000);
  });
});

describe('a record without the night’s parts', () => {
  it('is reported from what it holds', async () => {
    const night = await sampleNight('twin-night');
    const record = JSON.stringify(toRecord(night, '0.0.0', false));
    const { night: again } = await nightOfRecord(record);
    expect(again.accounts.totals).toEqual(night.accounts.totals);
    expect(again.accounts.lights.map((f) => [f.verdict, f.causes.map((c) => c.kind)])).toEqual(
      night.accounts.lights.map((f) => [f.verdict, f.causes.map((c) => c.kind)]),
    );
    expect(again.accounts.ledgers.map((l) => l.totalsMs)).toEqual(night.accounts.ledgers.map((l) => l.totalsMs));
    expect(again.accounts.dithers.map((d) => d.holder)).toEqual(night.accounts.dithers.map((d) => d.holder));
    expect(again.sky.window).toEqual(night.sky.window);
    const html = await pageOf(again);
    expect(html.replaceAll(/<(style|script)>[\s\S]*?<\/\1>|data:[^"')]+/g, '')).not.toMatch(/NaN|undefined/);
  });

  it('tells exposures that were given up from files that are missing, shared or not', async () => {
    const night = await sampleNight('twin-night');
    const { neverWritten, missing } = whichFrames(night.accounts.lights);
    expect(neverWritten).toBeGreaterThan(0);
    for (const one of [night, shareNight(night)]) {
      const { night: again } = await nightOfRecord(JSON.stringify(toRecord(one, '0.0.0', false)));
      expect(whichFrames(again.accounts.lights)).toMatchObject({ neverWritten, missing });
    }
  });

  it('cannot be judged by other rules, and says so', async () => {
    const record = JSON.stringify(toRecord(await sampleNight('twin-night'), '0.0.0', false));
    const text = readFileSync(join(sampleFolder('twin-night'), 'rig.yaml'), 'utf8');
    await expect(nightOfRecord(record, { name: 'rig.yaml', text })).rejects.toThrow(/report its session again/);
  });
});

describe('a damaged record', () => {
  it.each([
    ['no base64', { encoding: 'gzip+base64', data: '***' }],
    ['nothing packed', { encoding: 'gzip+base64', data: 'AAAA' }],
  ])('says what is wrong: %s', async (_what, stages) => {
    const record = { ...toRecord(namedNight('two-hours'), '0.0.0'), stages };
    await expect(nightOfRecord(JSON.stringify(record))).rejects.toThrow(/stages|parts/);
  });

  it('whose exposures end before they begin names the field', async () => {
    const night = namedNight('two-hours');
    const frames = night.timeline.frames.map((f) => ({ ...f, exposure: { startMs: 2, endMs: 1 } }));
    await expect(nightOfRecord(textOf(altered(night, { timeline: { frames } })))).rejects.toThrow(
      /timeline\.frames#1\.exposure.*must end after it begins/,
    );
  });
});
