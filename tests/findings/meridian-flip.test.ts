import { CAUTION } from '../../src/model/index.js';
import { describe, expect, it } from 'vitest';
import { meridianFlip } from '../../src/findings/meridian-flip.js';
import { act, ask, found, HOUR, lights, minutes, nightOf } from './support.js';

// heron's last exposure ends at 906 s, wren's at 969 s; the flip begins at 1600 s and all go on at 1750 s.
const frames = [
  ...lights('heron', { from: 0, seconds: 300, count: 3 }),
  ...lights('heron', { from: 1750, seconds: 300, count: 3 }),
  ...lights('wren', { from: 0, seconds: 240, count: 4 }),
  ...lights('wren', { from: 1750, seconds: 240, count: 4 }),
];
const flip = [act('flip', 1600, 1690), act('centre', 1690, 1731), act('guiding-start', 1731, 1750)];

describe('the meridian flip', () => {
  it('is found with what it cost each train, and wins the wait before it', () => {
    const [finding] = found(meridianFlip, nightOf({ frames, activities: flip }));
    expect(minutes(finding?.costMs)).toBeCloseTo((1750 - 906 + 1750 - 969) / 60, 6);
    // An hour without the wait is no hour kept: readouts take their part of it.
    expect(minutes(finding?.winMs) / ((1600 - 906 + 1600 - 969) / 60)).toBeGreaterThan(0.95);
    expect(minutes(finding?.winMs) / ((1600 - 906 + 1600 - 969) / 60)).toBeLessThan(1);
    expect(finding).toMatchObject({ confidence: 'high', caution: CAUTION });
  });

  it('is found with its wait where the log calls that a hold for the meridian', () => {
    const wait = act('hold', 980, 1600, { why: 'waiting for the meridian' });
    const [plain, waited] = [flip, [wait, ...flip]].map(
      (activities) => found(meridianFlip, nightOf({ frames, activities }))[0]?.winMs,
    );
    expect(minutes(waited)).toBeCloseTo(minutes(plain), 0);
    const roof = act('hold', 980, 1600, { why: 'roof closed' });
    expect(found(meridianFlip, nightOf({ frames, activities: [roof, ...flip] }))).toEqual([]);
  });

  it('wins what lasts longer than usual as well', () => {
    const slow = [
      ...lights('heron', { from: 0, seconds: 300, count: 3 }),
      ...lights('heron', { from: 906 + 600, seconds: 300, count: 3 }),
    ];
    const [finding] = found(
      meridianFlip,
      nightOf({ frames: slow, activities: [act('flip', 906, 1000), act('centre', 1000, 1490)] }),
    );
    expect(minutes(finding?.winMs) / (10 - 4)).toBeGreaterThan(0.95);
    expect(minutes(finding?.winMs) / (10 - 4)).toBeLessThan(1);
    expect(finding?.advice).toContain('a centring that converges sooner');
  });

  it('is one finding where a try failed and another followed, and says so', () => {
    const tries = [act('flip', 1200, 1290, { facts: { ok: false } }), act('flip', 1500, 1590, { facts: { ok: true } })];
    const late = [
      ...lights('heron', { from: 0, seconds: 300, count: 3 }),
      ...lights('heron', { from: 1650, seconds: 300, count: 3 }),
    ];
    const all = found(meridianFlip, nightOf({ frames: late, activities: tries }));
    expect(all).toHaveLength(1);
    expect(all[0]?.title).toMatch(/, which failed at first, cost 12 min$/);
    expect(all[0]?.evidence[1]).toMatch(/^2 tries from .* to .*, 1 of them failed;/);
    expect(all[0]?.advice).toContain('why one try was not enough');
    expect(minutes(all[0]?.costMs)).toBeCloseTo((1650 - 906) / 60, 6);
    // Two flips with lights between them are two.
    const twice = nightOf({
      frames: [...late, ...lights('heron', { from: 3400, seconds: 300, count: 2 })],
      activities: [...tries, act('flip', 3200, 3300)],
    });
    expect(found(meridianFlip, twice).map(({ title }) => title.includes('failed'))).toEqual([true, false]);
  });

  it('reports a flip that is slow by itself, as well as a slow restart after one', () => {
    const slow = [
      ...lights('heron', { from: 0, seconds: 300, count: 3 }),
      ...lights('heron', { from: 906 + 700, seconds: 300, count: 3 }),
    ];
    const advice = (turn: number) =>
      found(meridianFlip, nightOf({ frames: slow, activities: [act('flip', 930, 930 + turn)] }))[0]?.advice;
    expect(advice(540)).toContain('the turn itself is long');
    expect(advice(90)).not.toContain('the turn itself is long');
  });

  it('is not charged with a hold that came while it was under way', () => {
    const roof = [act('hold', 1700, 2900), ...flip];
    const late = [
      ...lights('heron', { from: 0, seconds: 300, count: 3 }),
      ...lights('heron', { from: 1750 + 1200, seconds: 300, count: 3 }),
      ...lights('wren', { from: 0, seconds: 240, count: 4 }),
      ...lights('wren', { from: 1750 + 1200, seconds: 240, count: 4 }),
    ];
    const [open] = found(meridianFlip, nightOf({ frames, activities: flip }));
    const [closed] = found(meridianFlip, nightOf({ frames: late, activities: roof }));
    expect(minutes(closed?.costMs)).toBeCloseTo(minutes(open?.costMs), 6);
    expect(minutes(closed?.winMs) / minutes(open?.winMs)).toBeCloseTo(1, 1);
    expect(closed?.evidence[0]).toContain('20 min of it on hold');
  });

  it('is not charged with a rest that began long before', () => {
    const late = [
      ...lights('heron', { from: 0, seconds: 300, count: 3 }),
      ...lights('heron', { from: 2 * HOUR + 600, seconds: 300, count: 3 }),
    ];
    const [finding] = found(
      meridianFlip,
      nightOf({ frames: late, activities: [act('flip', 2 * HOUR, 2 * HOUR + 90)] }),
    );
    expect(minutes(finding?.costMs)).toBeCloseTo(10, 6);
  });

  it('is not found where it went as every flip goes', () => {
    const smooth = [
      ...lights('heron', { from: 0, seconds: 300, count: 3 }),
      ...lights('heron', { from: 906 + 280, seconds: 300, count: 3 }),
    ];
    expect(found(meridianFlip, nightOf({ frames: smooth, activities: [act('flip', 930, 1020)] }))).toEqual([]);
  });

  it('is not found where the wait before it was shorter than a sub: no more would have gone in', () => {
    const waited = (ms: number) => [
      ...lights('heron', { from: 0, seconds: 300, count: 3 }),
      ...lights('heron', { from: 906 + ms + 150, seconds: 300, count: 3 }),
    ];
    const of = (seconds: number) =>
      found(
        meridianFlip,
        nightOf({ frames: waited(seconds), activities: [act('flip', 906 + seconds, 906 + seconds + 90)] }),
      );
    expect(of(280)).toEqual([]);
    expect(of(500)).toHaveLength(1);
  });

  it('is not found on a night without one', () => {
    expect(found(meridianFlip, nightOf({ frames }))).toEqual([]);
  });

  it('is not assessed from headers alone', () => {
    expect(ask(meridianFlip, nightOf({ frames, headersOnly: true }))).toEqual({ notAssessed: 'an event log' });
  });
});
