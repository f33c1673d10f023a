import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ACCOUNTS, sum } from '../../../src/model/index.js';
import { mergeSessions, nightRecordSchema, type SessionRecord } from '../../../src/record/index.js';
import { frameOf, sessionOf } from '../../support/records.js';

const NIGHT = '2026-10-14';
const frames = (from: number, to: number) => Array.from({ length: to - from }, (_, i) => frameOf(NIGHT, from + i));
const keptSeconds = (record: SessionRecord) => sum(record.totals.map((t) => t.seconds.kept));
const ledgerSum = (record: SessionRecord, train: string) =>
  sum(record.ledger.filter((l) => l.train === train).map((l) => l.seconds));
const seconds = (record: SessionRecord, account: string, train = 'heron') =>
  record.ledger.find((l) => l.train === train && l.account === account)?.seconds;

describe('several sessions of one night', () => {
  it('leave a single session as it is', () => {
    const one = sessionOf(NIGHT, 'a', frames(0, 10));
    expect(mergeSessions([one])).toBe(one);
  });

  it('count a frame once that stands in two folders, wherever its file lies', () => {
    const a = sessionOf(NIGHT, 'a', frames(0, 30));
    const b = sessionOf(
      NIGHT,
      'b',
      frames(20, 50).map((f) => ({ ...f, file: `moved/${f.file}` })),
    );
    const merged = mergeSessions([a, b]);
    expect(merged.frames).toHaveLength(50);
    expect(keptSeconds(merged)).toBe(50 * 240);
    expect(merged.parts).toEqual([a, b]);
    expect(merged.warnings.map((w) => w.code)).toContain('several-sessions');
    expect(() => nightRecordSchema.parse(JSON.parse(JSON.stringify(merged)))).not.toThrow();
  });

  it('count a frame once though the log knew it without its file', () => {
    const logOnly = sessionOf(
      NIGHT,
      'log',
      frames(0, 5).map(({ identity: _none, ...f }) => ({
        ...f,
        file: null,
        begin: f.begin.replace('00.000Z', '00.640Z'),
      })),
    );
    const files = sessionOf(NIGHT, 'files', frames(0, 5), { headersOnly: true });
    expect(mergeSessions([logOnly, files]).frames).toHaveLength(5);
    expect(mergeSessions([files, logOnly]).frames).toHaveLength(5);
  });

  it('tell two frames apart that differ in their headers, though begin and filter are alike', () => {
    const a = sessionOf(NIGHT, 'a', [frameOf(NIGHT, 0)]);
    const b = sessionOf(NIGHT, 'b', [frameOf(NIGHT, 0, { identity: 'another' })]);
    expect(mergeSessions([a, b]).frames).toHaveLength(2);
  });

  it('keep frames of two trains apart that share a header hash within one session', () => {
    const twins = sessionOf(NIGHT, 'a', [frameOf(NIGHT, 0), frameOf(NIGHT, 0, { train: 'wren' })]);
    expect(mergeSessions([twins]).frames).toHaveLength(2);
  });

  it('count copies of a file within one session once', () => {
    const copied = sessionOf(NIGHT, 'a', [
      ...frames(0, 4),
      ...frames(0, 2).map((f) => ({ ...f, file: `backup/${f.file}` })),
    ]);
    const merged = mergeSessions([copied]);
    expect(merged.frames).toHaveLength(4);
    expect(keptSeconds(merged)).toBe(4 * 240);
    expect(ledgerSum(merged, 'heron')).toBeCloseTo(36_000, 6);
  });

  it('believe the session whose logs were read over headers alone, in whatever order they came', () => {
    const logged = sessionOf(NIGHT, 'logs', [frameOf(NIGHT, 0, { verdict: 'lost' })]);
    const headers = sessionOf(NIGHT, 'headers', frames(0, 1), { headersOnly: true });
    for (const order of [
      [logged, headers],
      [headers, logged],
    ]) {
      const merged = mergeSessions(order);
      expect(merged.frames.map((f) => f.verdict)).toEqual(['lost']);
      expect(merged.headersOnly).toBe(false);
      expect(seconds(merged, 'readout')).toBe(3);
    }
  });

  it('believe the later of two alike', () => {
    const first = sessionOf(NIGHT, 'a', frames(0, 1));
    const second = sessionOf(NIGHT, 'b', [frameOf(NIGHT, 0, { verdict: 'doubtful' })]);
    expect(mergeSessions([first, second]).frames[0]?.verdict).toBe('doubtful');
    expect(mergeSessions([second, first]).frames[0]?.verdict).toBe('kept');
  });

  it('take a train’s new name from the session that is believed', () => {
    const old = sessionOf(NIGHT, 'a', frames(0, 3));
    const renamed = sessionOf(
      NIGHT,
      'b',
      frames(0, 3).map((f) => ({ ...f, train: 'egret' })),
      { trains: [{ id: 'egret', role: 'pilot' }] },
    );
    const merged = mergeSessions([old, renamed]);
    expect(merged.trains.map((t) => t.id)).toEqual(['egret']);
    expect(merged.totals.map((t) => t.train)).toEqual(['egret']);
  });

  it('know darkness, site and goals if one of them does', () => {
    const goals = [{ name: 'NGC 281', aliases: [], ra: 13, dec: 56, hours: { Ha: 12 } }];
    const blind = sessionOf(NIGHT, 'a', frames(0, 3), {
      site: null,
      window: { start: '2026-10-14T20:00:00.000Z', end: '2026-10-14T20:20:00.000Z', kind: 'activity' },
    });
    const seeing = sessionOf(NIGHT, 'b', frames(3, 5), {
      headersOnly: true,
      archive: { session: 'b', report: 'r/report.html', darkness: 'nautical', goals },
    });
    const merged = mergeSessions([seeing, blind]);
    expect(merged.window.kind).toBe('nautical');
    expect(merged.site?.name).toBe('Cierzo Hill');
    expect(merged.archive).toMatchObject({ goals, report: 'r/report.html' });
    expect(ledgerSum(merged, 'heron')).toBeCloseTo(36_000, 6);
  });

  it('scale what was done with the shutter closed when the window cannot hold it all', () => {
    const busy = (session: string, from: number) => {
      const record = sessionOf(NIGHT, session, frames(from, from + 2));
      return {
        ...record,
        ledger: record.ledger.map((l) => ({
          ...l,
          seconds: l.account === 'hold' ? 30_000 : l.account === 'unexplained' ? l.seconds - 30_000 : l.seconds,
        })),
      };
    };
    const merged = mergeSessions([busy('a', 0), busy('b', 2)]);
    expect(ledgerSum(merged, 'heron')).toBeCloseTo(36_000, 6);
    expect(seconds(merged, 'unexplained')).toBeGreaterThanOrEqual(0);
    expect(seconds(merged, 'kept')).toBe(4 * 240);
  });

  it('hold every frame once and balance to the millisecond, however they overlap', () => {
    const sessions = fc.array(
      fc.record({
        from: fc.integer({ min: 0, max: 60 }),
        length: fc.integer({ min: 0, max: 40 }),
        headersOnly: fc.boolean(),
      }),
      { minLength: 1, maxLength: 5 },
    );
    fc.assert(
      fc.property(sessions, (parts) => {
        const records = parts.map(({ from, length, headersOnly }, i) =>
          sessionOf(NIGHT, `s${i}`, frames(from, from + length), { headersOnly }),
        );
        const expected = new Set(records.flatMap((r) => r.frames.map((f) => f.identity)));
        const merged = mergeSessions(records);
        expect(merged.frames.map((f) => f.identity).sort()).toEqual([...expected].sort());
        expect(keptSeconds(merged)).toBe(expected.size * 240);
        expect(Math.round(ledgerSum(merged, 'heron') * 1000)).toBe(36_000_000);
        expect(merged.ledger.filter((l) => l.train === 'heron').map((l) => l.account)).toEqual([...ACCOUNTS]);
        expect(merged.ledger.every((l) => l.seconds >= 0)).toBe(true);
      }),
      { numRuns: 120 },
    );
  });
});
