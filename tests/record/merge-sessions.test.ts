import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nightOfRecord } from '../../src/again.js';
import { mergeSessions } from '../../src/merge-sessions.js';
import { ACCOUNTS, sum } from '../../src/model/index.js';
import { nightRecordSchema, type SessionRecord } from '../../src/record/index.js';
import { frameOf, sessionOf } from '../support/records.js';
import { partOf, wholeNight } from '../support/split-night.js';
import { runs } from '../support/runs.js';

const NIGHT = '2026-10-14';
const frames = (from: number, to: number) => Array.from({ length: to - from }, (_, i) => frameOf(NIGHT, from + i));
const keptSeconds = (record: SessionRecord) => sum(record.totals.map((t) => t.seconds.kept));
const windowMs = ({ window }: SessionRecord) => Date.parse(window.end) - Date.parse(window.start);
const ledgerMs = (record: SessionRecord, train: string) =>
  Math.round(sum(record.ledger.filter((l) => l.train === train).map((l) => l.seconds)) * 1000);

const STRICT = `trains:
  - { id: heron, role: pilot, frames: ['heron/**'] }
  - { id: wren, frames: ['wren/**'] }
rules: { guidingOffGrace: 0.5 }
`;

describe('a night split into two sessions and merged', () => {
  /** Whose a frame or activity is: the first session's, the second's, or both's. */
  const share = fc.constantFrom('first', 'second', 'both');
  const figures = ({ totals, ledger, dithers, window, sky, trains, targets }: SessionRecord) => ({
    totals,
    ledger,
    dithers,
    window,
    sky,
    trains,
    targets,
  });
  const verdicts = ({ frames: all }: SessionRecord) =>
    all.map(({ train, begin, file, verdict, causes, cleared }) => ({ train, begin, file, verdict, causes, cleared }));

  it('is the night reported whole: the same totals, accounts, waits, holders and verdicts', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1, max: 500 }),
        fc.boolean(),
        fc.infiniteStream(share),
        async (seed, logs, shares) => {
          const night = await wholeNight(seed, logs);
          const whose = new Map<object, string>();
          for (const item of [...night.timeline.frames, ...night.timeline.activities])
            whose.set(item, shares.next().value);
          const [first, second] = await Promise.all(
            (['first', 'second'] as const).map((name) =>
              partOf(night, name, (item) => whose.get(item) === name || whose.get(item) === 'both'),
            ),
          );
          if (!first || !second) throw new Error('two parts are missing');
          const whole = await partOf(night, 'whole', () => true);
          const merged = await mergeSessions([first, second]);
          expect(figures(merged)).toEqual(figures(whole));
          expect(verdicts(merged)).toEqual(verdicts(whole));
        },
      ),
      runs(6),
    );
  });

  it('is made again from its record, and judged by other rules', async () => {
    const night = await wholeNight(3, true);
    const half = (index: number) => new Set<object>(night.timeline.frames.filter((_f, i) => i % 2 === index));
    const [even, odd] = [half(0), half(1)];
    const merged = await mergeSessions([
      await partOf(night, 'even', (item) => !odd.has(item)),
      await partOf(night, 'odd', (item) => !even.has(item)),
    ]);
    const text = JSON.stringify(merged);
    const { night: again } = await nightOfRecord(text);
    expect(again.accounts.totals.map((t) => t.frames)).toEqual(merged.totals.map((t) => t.frames));
    const strict = await nightOfRecord(text, { name: 'rig.yaml', text: STRICT });
    const lost = (totals: readonly { readonly frames: { readonly lost: number } }[]) =>
      sum(totals.map((t) => t.frames.lost));
    expect(lost(strict.night.accounts.totals)).toBeGreaterThanOrEqual(lost(again.accounts.totals));
    expect(strict.night.gathered.rules.guidingOffGraceSeconds).toBe(0.5);
  });

  it('joins a log without files and the files without a log', async () => {
    const night = await wholeNight(7, true);
    const bare = {
      ...night,
      timeline: {
        ...night.timeline,
        frames: night.timeline.frames.map(({ file: _f, header: _h, ...frame }) => ({
          ...frame,
          provenance: 'log-only' as const,
        })),
      },
    };
    const files = {
      ...night,
      timeline: {
        ...night.timeline,
        headersOnly: true,
        activities: [],
        frames: night.timeline.frames.flatMap(({ savedMs: _s, aborted: _a, askedMs: _m, ...frame }) =>
          frame.file === undefined ? [] : [{ ...frame, provenance: 'file-only' as const }],
        ),
      },
    };
    const whole = await partOf(night, 'whole', () => true);
    const merged = await mergeSessions([
      await partOf(files, 'files', () => true),
      await partOf(bare, 'log', () => true),
    ]);
    expect(verdicts(merged)).toEqual(verdicts(whole));
    expect(figures(merged)).toEqual(figures(whole));
    expect(merged.warnings.map((w) => w.code)).not.toContain('file-missing');
  });
});

describe('several sessions of one night', () => {
  it('leave a single session as it is', async () => {
    const one = sessionOf(NIGHT, 'a', frames(0, 10));
    expect(await mergeSessions([one])).toBe(one);
  });

  it('count a frame once that stands in two folders, wherever its file lies', async () => {
    const a = sessionOf(NIGHT, 'a', frames(0, 30));
    const b = sessionOf(
      NIGHT,
      'b',
      frames(20, 50).map((f) => ({ ...f, file: `moved/${f.file}` })),
    );
    const merged = await mergeSessions([a, b]);
    expect(merged.frames).toHaveLength(50);
    expect(keptSeconds(merged)).toBe(50 * 240);
    expect(merged.parts).toEqual([a, b]);
    expect(merged.warnings.map((w) => w.code)).toContain('several-sessions');
    expect(() => nightRecordSchema.parse(JSON.parse(JSON.stringify(merged)))).not.toThrow();
  });

  it('count a frame once though the log knew it without its file', async () => {
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
    expect((await mergeSessions([logOnly, files])).frames).toHaveLength(5);
    expect((await mergeSessions([files, logOnly])).frames).toHaveLength(5);
  });

  it('tell two frames apart that differ in their headers, though begin and filter are alike', async () => {
    const a = sessionOf(NIGHT, 'a', [frameOf(NIGHT, 0)]);
    const b = sessionOf(NIGHT, 'b', [frameOf(NIGHT, 0, { identity: 'another' })]);
    expect((await mergeSessions([a, b])).frames).toHaveLength(2);
  });

  it('keep frames of two trains apart that share a header hash within one session', async () => {
    const twins = sessionOf(NIGHT, 'a', [frameOf(NIGHT, 0), frameOf(NIGHT, 0, { train: 'wren' })]);
    expect((await mergeSessions([twins])).frames).toHaveLength(2);
  });

  it('count copies of a file within one session once', async () => {
    const copied = sessionOf(NIGHT, 'a', [
      ...frames(0, 4),
      ...frames(0, 2).map((f) => ({ ...f, file: `backup/${f.file}` })),
    ]);
    const merged = await mergeSessions([copied]);
    expect(merged.frames).toHaveLength(4);
    expect(keptSeconds(merged)).toBe(4 * 240);
    expect(ledgerMs(merged, 'heron')).toBe(windowMs(merged));
  });

  it('believe the session whose logs were read over headers alone, in whatever order they came', async () => {
    const logged = sessionOf(NIGHT, 'logs', [frameOf(NIGHT, 0, { verdict: 'lost' })]);
    const headers = sessionOf(NIGHT, 'headers', frames(0, 1), { headersOnly: true });
    for (const order of [
      [logged, headers],
      [headers, logged],
    ]) {
      const merged = await mergeSessions(order);
      expect(merged.frames.map((f) => f.verdict)).toEqual(['lost']);
      expect(merged.headersOnly).toBe(false);
    }
  });

  it('believe the later of two alike', async () => {
    const first = sessionOf(NIGHT, 'a', frames(0, 1));
    const second = sessionOf(NIGHT, 'b', [frameOf(NIGHT, 0, { verdict: 'doubtful' })]);
    expect((await mergeSessions([first, second])).frames[0]?.verdict).toBe('doubtful');
    expect((await mergeSessions([second, first])).frames[0]?.verdict).toBe('kept');
  });

  it('take a train’s new name from the session that is believed', async () => {
    const old = sessionOf(NIGHT, 'a', frames(0, 3));
    const renamed = sessionOf(
      NIGHT,
      'b',
      frames(0, 3).map((f) => ({ ...f, train: 'egret' })),
      { trains: [{ id: 'egret', role: 'pilot' }] },
    );
    const merged = await mergeSessions([old, renamed]);
    expect(merged.trains.map((t) => t.id)).toEqual(['egret']);
    expect(merged.totals.map((t) => t.train)).toEqual(['egret']);
  });

  it('know darkness, site and goals if one of them does', async () => {
    const goals = [{ name: 'NGC 281', aliases: [], ra: 13, dec: 56, hours: { Ha: 12 } }];
    const blind = sessionOf(NIGHT, 'a', frames(0, 3), {
      site: null,
      sky: null,
      window: { start: '2026-10-14T20:00:00.000Z', end: '2026-10-14T20:20:00.000Z', kind: 'activity' },
    });
    const seeing = sessionOf(NIGHT, 'b', frames(3, 5), {
      headersOnly: true,
      archive: { session: 'b', report: 'r/report.html', darkness: 'nautical', goals },
    });
    const merged = await mergeSessions([seeing, blind]);
    expect(merged.window.kind).toBe('nautical');
    expect(merged.site?.name).toBe('Cierzo Hill');
    expect(merged.archive).toMatchObject({ goals, report: 'r/report.html' });
    expect(ledgerMs(merged, 'heron')).toBe(windowMs(merged));
  });

  it('that know the sky of no site keep the window they had', async () => {
    const shared = { site: null, sky: null };
    const merged = await mergeSessions([
      sessionOf(NIGHT, 'a', frames(0, 3), shared),
      sessionOf(NIGHT, 'b', frames(3, 6), shared),
    ]);
    expect(windowMs(merged)).toBe(36_000_000);
    expect(keptSeconds(merged)).toBe(6 * 240);
  });

  it('hold every frame once and balance to the millisecond, however they overlap', async () => {
    const sessions = fc.array(
      fc.record({
        from: fc.integer({ min: 0, max: 60 }),
        length: fc.integer({ min: 0, max: 40 }),
        headersOnly: fc.boolean(),
      }),
      { minLength: 2, maxLength: 5 },
    );
    await fc.assert(
      fc.asyncProperty(sessions, async (parts) => {
        const records = parts.map(({ from, length, headersOnly }, i) =>
          sessionOf(NIGHT, `s${i}`, frames(from, from + length), { headersOnly }),
        );
        const expected = new Set(records.flatMap((r) => r.frames.map((f) => f.identity)));
        const merged = await mergeSessions(records);
        expect(merged.frames.map((f) => f.identity).sort()).toEqual([...expected].sort());
        expect(keptSeconds(merged)).toBe(expected.size * 240);
        expect(ledgerMs(merged, 'heron')).toBe(windowMs(merged));
        expect(merged.ledger.filter((l) => l.train === 'heron').map((l) => l.account)).toEqual([...ACCOUNTS]);
        expect(merged.ledger.every((l) => l.seconds >= 0)).toBe(true);
      }),
      runs(40),
    );
  });
});
