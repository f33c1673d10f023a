import { describe, expect, it } from 'vitest';
import { ditherWait } from '../../src/findings/dither-wait.js';
import { replayNight } from '../../src/replay/index.js';
import { altered } from '../support/altered.js';
import { act, ask, dithered, found, HERON, minutes, nightOf, T0 } from './support.js';

const apart = () =>
  nightOf(dithered({ blocks: 12, trains: { heron: { seconds: 300, count: 3 }, wren: { seconds: 240, count: 4 } } }));

describe('waiting for dithers', () => {
  it('is found on the train that waited, with who held it and the longest wait to look at', () => {
    const [finding, ...rest] = found(ditherWait, apart());
    // 4 × 243 s − 3 × 303 s = 63 s at each of 12 dithers but the last, after which nobody exposes.
    expect(minutes(finding?.costMs)).toBeCloseTo((11 * 63) / 60, 6);
    expect(finding?.title).toBe('heron waited 12 min for dithers');
    expect(finding?.evidence.join()).toContain('wren was ready last in 11 of them');
    expect(finding?.links?.map((l) => l.anchor)).toEqual(['dithers', 'dither-1']);
    expect(finding?.confidence).toBe('high');
    expect(rest).toEqual([]);
  });

  it('is not found where both end together', () => {
    expect(
      found(
        ditherWait,
        nightOf(
          dithered({ blocks: 12, trains: { heron: { seconds: 300, count: 3 }, wren: { seconds: 300, count: 3 } } }),
        ),
      ),
    ).toEqual([]);
  });

  it('is not found for the few seconds that two computers need to agree', () => {
    expect(
      found(
        ditherWait,
        nightOf(
          dithered({ blocks: 60, trains: { heron: { seconds: 100, count: 3 }, wren: { seconds: 102, count: 3 } } }),
        ),
      ),
    ).toEqual([]);
  });

  it('is not found for a wait on hold: a cloud has nothing to do with the dither', () => {
    // Wren's second block has two frames more: heron stands ready for ten minutes of a cloud.
    const [before, long, after] = [3, 5, 3].map((count, i) =>
      dithered({
        blocks: i === 0 ? 2 : i === 1 ? 1 : 6,
        trains: { heron: { seconds: 300, count: 3 }, wren: { seconds: 300, count } },
        from: [0, 2000, 4000][i],
      }),
    );
    const parts = [before, long, after].flatMap((part) => part ?? []);
    const plan = { frames: parts.flatMap((p) => p.frames), activities: parts.flatMap((p) => p.activities) };
    expect(minutes(found(ditherWait, nightOf(plan))[0]?.costMs)).toBeCloseTo((2 * 303) / 60, 1);
    const ready = long?.activities.find((a) => a.kind === 'dither-ready' && a.train === 'heron');
    const [from, to] = [ready?.span.startMs ?? T0, ready?.span.endMs ?? T0].map((ms) => (ms - T0) / 1000);
    const cloud = act('hold', (from ?? 0) + 5, to ?? 0, { why: 'cloud' });
    expect(found(ditherWait, nightOf({ ...plan, activities: [...plan.activities, cloud] }))).toEqual([]);
  });

  it('names what the replay found best, and wins no more than that', () => {
    const night = apart();
    const [finding] = found(ditherWait, { ...night, replay: replayNight(night) });
    expect(finding?.advice).toMatch(/Replayed with that rule, the night keeps [\d.]+ (?:s|min|h)(?: \d\d s)? more/);
    expect(finding?.winMs).toBeLessThanOrEqual(finding?.costMs ?? 0);
    expect(finding?.winMs).toBeGreaterThan(0);
  });

  it('with equal subs does not advise making them equal', () => {
    const plan = { heron: { seconds: 300, count: 2 }, wren: { seconds: 300, count: 3 } };
    const [finding] = found(ditherWait, nightOf(dithered({ blocks: 12, trains: plan })));
    expect(finding?.advice).toContain('Let wren begin no exposure when a dither is due within a minute');
    expect(finding?.advice).not.toContain('equal subs, or one a whole');
  });

  it('that another’s refocuses made asks to refocus together, not for other lengths', () => {
    const { frames, activities } = dithered({
      blocks: 12,
      trains: { heron: { seconds: 300, count: 3 }, wren: { seconds: 300, count: 3, pause: 43 } },
    });
    const ready = (train: string) => activities.filter((a) => a.kind === 'dither-ready' && a.train === train);
    // Wren focuses while heron stands ready.
    const focus = ready('heron').map((a) =>
      act('focus', (a.span.startMs - T0) / 1000, (a.span.endMs - T0) / 1000, { train: 'wren' }),
    );
    const [finding] = found(ditherWait, nightOf({ frames, activities: [...activities, ...focus] }));
    expect(finding?.advice).toBe('Refocus all trains together, at a dither: heron waited for wren’s refocuses.');
  });

  it('that a refocus earlier since the last dither made is laid to it, though the holder exposes meanwhile', () => {
    // Wren refocuses for 150 s before its three subs, and so ends them as much later than heron.
    const { frames, activities } = dithered({
      blocks: 12,
      trains: { heron: { seconds: 300, count: 3 }, wren: { seconds: 300, count: 3, pause: 53 } },
    });
    const early = activities.filter((a) => a.kind === 'settling').map((a) => (a.span.endMs - T0) / 1000);
    const focus = early.map((end) => act('focus', end, end + 150, { train: 'wren' }));
    const later = frames.map((f) =>
      f.train === 'wren'
        ? { ...f, exposure: { startMs: f.exposure.startMs + 50_000, endMs: f.exposure.endMs + 50_000 } }
        : f,
    );
    const [finding] = found(ditherWait, nightOf({ frames: later, activities: [...activities, ...focus] }));
    expect(finding?.advice).toBe('Refocus all trains together, at a dither: heron waited for wren’s refocuses.');
  });

  it('of a few long waits does not ask trains in step for other lengths', () => {
    const night = nightOf(
      dithered({ blocks: 12, trains: { heron: { seconds: 300, count: 3 }, wren: { seconds: 300, count: 3 } } }),
    );
    const dithers = night.accounts.dithers.map((d, i) => {
      const wait = d.waits.heron;
      const longMs = i === 5 ? 900_000 : 1000;
      return wait
        ? {
            ...d,
            holder: 'wren',
            waits: { ...d.waits, heron: { ...wait, waitMs: longMs, readyMs: d.beginMs - longMs } },
          }
        : d;
    });
    const [finding] = found(ditherWait, altered(night, { accounts: { dithers } }));
    expect(finding?.advice).toMatch(
      /^At most dithers both were ready: wren went on exposing for 15 min of the longest waits \(longest from 22:\d\d to /,
    );
  });

  it('of one long wait names what its log says of the train that held: a roof that closed for that train alone', () => {
    // Wren's third block begins a quarter of an hour late, for its roof was closed.
    const LATE_S = 900;
    const before = dithered({
      blocks: 2,
      trains: { heron: { seconds: 300, count: 3 }, wren: { seconds: 300, count: 3 } },
    });
    const night = (why: string | null) => {
      const wrenLate = dithered({
        blocks: 1,
        trains: { heron: { seconds: 300, count: 3 }, wren: { seconds: 300, count: 3, pause: 3 + LATE_S / 3 } },
        from: 2000,
      });
      const after = dithered({
        blocks: 10,
        trains: { heron: { seconds: 300, count: 3 }, wren: { seconds: 300, count: 3 } },
        from: 4000,
      });
      const parts = [before, wrenLate, after];
      const ready = wrenLate.activities.find((a) => a.kind === 'dither-ready' && a.train === 'heron')?.span;
      const [from, to] = [ready?.startMs ?? T0, ready?.endMs ?? T0].map((ms) => (ms - T0) / 1000);
      const held = why === null ? [] : [act('hold', (from ?? 0) + 1, to ?? 0, { why, train: 'wren' })];
      return nightOf({
        frames: parts.flatMap((p) => p.frames),
        activities: [...parts.flatMap((p) => p.activities), ...held],
      });
    };
    const [roof] = found(ditherWait, night('roof closed'));
    expect(roof?.advice).toMatch(
      /^At most dithers both were ready: wren was on hold \(roof closed\) for (?:10|9) min .*of the longest waits/,
    );
    expect(roof?.advice).toMatch(/\); no dither setting changes that\.$/);
    expect(roof?.winMs).toBe(0);
    expect(found(ditherWait, night(null))[0]?.advice).toMatch(/: wren was idle for 10 min .*; no log says why/);
  });

  it('is less sure where readiness was inferred', () => {
    const { frames, activities } = dithered({
      blocks: 12,
      trains: { heron: { seconds: 300, count: 3 }, wren: { seconds: 240, count: 4 } },
    });
    const [finding] = found(
      ditherWait,
      nightOf({ frames, activities: activities.filter((a) => a.kind !== 'dither-ready') }),
    );
    expect(finding?.confidence).toBe('medium');
  });

  it('is not assessed with one train, nor without dithers', () => {
    const alone = dithered({ blocks: 4, trains: { heron: { seconds: 300, count: 3 } } });
    expect(ask(ditherWait, nightOf({ ...alone, trains: [HERON] }))).toEqual({ notAssessed: 'a second train' });
    expect(ask(ditherWait, nightOf({ frames: apart().accounts.lights }))).toEqual({
      notAssessed: 'dithers in the log',
    });
  });
});
