import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { lookAhead } from '../../src/look-ahead.js';
import { parseGoals } from '../../src/config/index.js';
import { sum } from '../../src/model/index.js';
import { progressOf } from '../../src/progress/index.js';
import { archivedNights } from '../../src/archive.js';
import { nightRecordSchema } from '../../src/record/index.js';
import { AUTUMN } from '../support/generator/autumn.js';
import { AUTUMN_NOW_MS, autumnTruth, type ArchiveTruth } from '../support/generator/autumn-archive.js';
import { sampleFolder } from '../support/sample-night.js';

const ARCHIVE = sampleFolder('autumn-archive');
const truth = JSON.parse(readFileSync(join(ARCHIVE, 'expected.json'), 'utf8')) as ArchiveTruth;
const { nights, warnings } = await archivedNights(ARCHIVE);
const { book } = parseGoals('goals.yaml', readFileSync(join(ARCHIVE, 'goals.yaml'), 'utf8'));
const progress = progressOf(nights, book, () => 'Cierzo Hill');

describe('autumn-archive', () => {
  it('holds the truth of the seeded simulations: `npm run samples`', () => {
    expect(autumnTruth()).toEqual(truth);
  });

  it('holds a valid record for each of its nights, and nothing to warn of', () => {
    expect(warnings).toEqual([]);
    expect(nights.map((n) => n.date)).toEqual(truth.nights.map((n) => n.night));
    expect(nights).toHaveLength(AUTUMN.length);
    const records = readdirSync(ARCHIVE).filter((name) => /^\d{4}-\d\d-\d\d\.json$/.test(name));
    for (const name of records) nightRecordSchema.parse(JSON.parse(readFileSync(join(ARCHIVE, name), 'utf8')));
  });

  it('is summed up as it truly was, to the second, by target, filter and train', () => {
    const summed = new Map<string, { frames: number[]; seconds: number[] }>();
    for (const { target, filter, train, frames, ms } of nights.flatMap((n) => n.totals)) {
      const key = `${target}|${filter}|${train}`;
      const before = summed.get(key) ?? { frames: [0, 0, 0, 0], seconds: [0, 0, 0, 0] };
      const add = (old: readonly number[], next: readonly number[]): number[] =>
        old.map((value, i) => value + (next[i] ?? 0));
      summed.set(key, {
        frames: add(before.frames, [frames.taken, frames.kept, frames.doubtful, frames.lost]),
        seconds: add(
          before.seconds,
          [ms.taken, ms.kept, ms.doubtful, ms.lost].map((one) => one / 1000),
        ),
      });
    }
    expect([...summed.keys()].sort()).toEqual(truth.totals.map((t) => `${t.target}|${t.filter}|${t.train}`).sort());
    for (const { target, filter, train, frames, seconds } of truth.totals) {
      const own = summed.get(`${target}|${filter}|${train}`);
      expect(own?.frames, `${target} ${filter} ${train}`).toEqual([
        frames.taken,
        frames.kept,
        frames.doubtful,
        frames.lost,
      ]);
      own?.seconds.forEach((value, i) =>
        expect(value).toBeCloseTo([seconds.taken, seconds.kept, seconds.doubtful, seconds.lost][i] ?? NaN, 3),
      );
    }
  });

  it('gives each target what its nights gave', () => {
    for (const target of progress.targets) {
      const expected = sum(truth.nights.filter((n) => n.target === target.name).map((n) => n.keptSeconds));
      expect(target.ms.kept / 1000, target.name).toBeCloseTo(expected, 3);
      expect(sum(target.nights.map((n) => n.ms.kept)) / 1000).toBeCloseTo(expected, 3);
    }
    expect(sum(progress.trends.map((t) => t.keptMs)) / 1000).toBeCloseTo(
      sum(truth.nights.map((n) => n.keptSeconds)),
      3,
    );
  });

  it('knows the night that came from headers alone', () => {
    expect(nights.filter((n) => n.headersOnly).map((n) => n.date)).toEqual(
      AUTUMN.flatMap((n) => (n.headersOnly ? [n.begin.slice(0, 10)] : [])),
    );
  });

  it('shows what was simulated: guiding that improved, waits that disappeared', () => {
    const waits = progress.trends.map((t) => t.trains.find((one) => one.train === 'heron')?.ditherWaitMs ?? 0);
    expect(Math.min(...waits.slice(0, 5))).toBeGreaterThan(60_000);
    expect(Math.max(...waits.slice(5))).toBeLessThan(10_000);
    const rms = progress.trends.flatMap((t) => t.trains.find((one) => one.train === 'heron')?.guidingRmsArcsec ?? []);
    expect(rms.at(-1)).toBeLessThan((rms[0] ?? 0) - 0.1);
  });

  it('has an outlook for each target that lacks something, with seasons as autumn targets have them', () => {
    const outlook = lookAhead(progress, book, () => 'Cierzo Hill', { nowMs: AUTUMN_NOW_MS });
    expect(outlook?.from).toBe('2026-11-25');
    expect(outlook?.pace.nights).toBe(12);
    expect(outlook?.targets.map((t) => t.name).sort()).toEqual(['IC 1396', 'M 33', 'NGC 281']);
    for (const { season, estimate } of outlook?.targets ?? []) {
      // All three culminate in autumn evenings and are lost in the Sun's glare by spring.
      expect(season.state === 'now' && season.until).toMatch(/^2027-0[23]/);
      expect(estimate?.nights?.middle).toBeGreaterThan(0);
      expect((estimate?.dates?.low ?? '') > '2026-11-24').toBe(true);
    }
  });
});

describe('effective hours', () => {
  const kept = (list: typeof nights) => sum(list.flatMap((n) => n.totals.map((t) => t.ms.kept)));

  it('of a model of a clear sky count towards no goal: such frames count by the clock', async () => {
    const { nights: effective } = await archivedNights(ARCHIVE, { counting: 'effective' });
    expect(kept(effective)).toBe(kept(nights));
    for (const night of effective) expect(night.keptWithoutEffective).toBe(sum(night.totals.map((t) => t.frames.kept)));
  });

  describe('that were measured', () => {
    const folder = mkdtempSync(join(tmpdir(), 'nightledger-effective-'));
    afterAll(() => rmSync(folder, { recursive: true, force: true }));
    const records = nights.map(({ file }) =>
      nightRecordSchema.parse(JSON.parse(readFileSync(join(ARCHIVE, file), 'utf8'))),
    );
    const written = (referenceOf: (index: number) => number) => {
      records.forEach((record, i) => {
        const measured = {
          ...record,
          referenceSub: referenceOf(i),
          darkSky: { magnitude: 21, assumed: true },
          frames: record.frames.map((f) => ({ ...f, effectiveFrom: 'measured' })),
          // Against a zenith sky that the rig file fixes.
          totals: record.totals.map(({ effectiveRange: range, ...total }) => ({
            ...total,
            ...(range ? { effectiveRange: { ...range, doubts: ['clear-nights'] } } : {}),
          })),
        };
        writeFileSync(join(folder, nights[i]?.file ?? ''), JSON.stringify(measured));
      });
      return archivedNights(folder, { counting: 'effective' });
    };
    const own = (record: (typeof records)[number]) =>
      sum(
        record.frames
          .filter((f) => f.verdict === 'kept')
          .map((f) => Math.round((f.effectiveSeconds ?? f.seconds) * 1000)),
      );

    it('count as the records have them, and only for kept frames', async () => {
      const { nights: effective, warnings } = await written(() => 300);
      expect(effective.map((night) => kept([night]))).toEqual(records.map(own));
      expect(kept(effective)).toBeLessThan(kept(nights));
      for (const verdict of ['taken', 'doubtful', 'lost'] as const) {
        const all = (list: typeof nights) => sum(list.flatMap((n) => n.totals.map((t) => t.ms[verdict])));
        expect(all(effective)).toBe(all(nights));
      }
      expect(warnings.map((w) => w.code)).not.toContain('effective-reference');
    });

    it('are never added up over two references: nights of another one count by the clock, and it is said', async () => {
      const last = records.length - 1;
      const { nights: effective, warnings } = await written((index) => (index === last ? 300 : 120));
      expect(effective.map((night) => kept([night]))).toEqual(
        records.map((record, i) => (i === last ? own(record) : kept(nights.slice(i, i + 1)))),
      );
      expect(warnings.find((w) => w.code === 'effective-reference')).toMatchObject({ count: last });
    });
  });
});
