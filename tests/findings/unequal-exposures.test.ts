import { describe, expect, it } from 'vitest';
import { unequalExposures } from '../../src/findings/unequal-exposures.js';
import { reported, scenarioOf } from './followed/support.js';
import { act, ask, dithered, found, HERON, minutes, nightOf } from './support.js';

const night = (heron: [number, number], wren: [number, number], blocks = 12) =>
  nightOf(
    dithered({
      blocks,
      trains: { heron: { seconds: heron[0], count: heron[1] }, wren: { seconds: wren[0], count: wren[1] } },
    }),
  );

describe('exposure lengths that do not meet', () => {
  it('are found with the arithmetic and the length that would fit', () => {
    const [finding] = found(unequalExposures, night([300, 3], [240, 4]));
    // 10 of 12 dithers lie between two others and exposures; 63 s apart at each.
    expect(minutes(finding?.costMs)).toBeCloseTo((10 * 63) / 60, 6);
    expect(finding?.evidence[0]).toContain(
      '3 × 303 s on heron are 909 s and 4 × 243 s on wren are 972 s: 1 min 03 s apart',
    );
    // 909 s ÷ 4 − 3 s of pause.
    expect(finding?.advice).toContain('or 224 s on wren');
  });

  it('are not found when equal, nor when one divides the other', () => {
    expect(found(unequalExposures, night([300, 3], [300, 3]))).toEqual([]);
    expect(found(unequalExposures, night([303, 2], [150, 4]))).toEqual([]);
  });

  it('are no matter of lengths where equal ones miss the dither by a frame begun just before it', () => {
    const [finding] = found(unequalExposures, night([140, 2], [140, 3]));
    expect(finding?.title).toMatch(/^wren begins one more exposure just before the dither/);
    expect(finding?.advice).toMatch(/^Let wren begin no exposure when a dither is due/);
    expect(finding?.advice).not.toMatch(/on both|darks/);
  });

  it('are brought together by the length that the replay tried, and by no other', async () => {
    const calm = scenarioOf(5);
    const night = await reported({
      ...calm,
      name: 'unequal-once',
      ditherEvery: 3,
      trains: calm.trains.map((t, i) => ({ ...t, plan: t.plan.map((p) => ({ ...p, seconds: i === 0 ? 300 : 240 })) })),
    });
    const [finding] = found(unequalExposures, night);
    // 3 × 303 s of heron divided by four, in steps of five seconds, or heron's own length.
    expect(finding?.advice).toMatch(/^Try this: wren exposes (?:225|230|300) s/);
    expect([...(finding?.advice ?? '').matchAll(/\b\d{3} s\b/g)].length).toBeLessThanOrEqual(2);
    expect(finding?.evidence.join()).not.toContain('would end with');
  });

  it('are not brought together by a sub that changes by more than half', () => {
    const [finding] = found(unequalExposures, night([75, 4], [410, 1]));
    expect(finding?.advice).toBe('Expose 312 s on wren; a new length needs its own darks.');
  });

  it('are not found where waits have another reason', () => {
    // Equal subs, but wren refocuses for two minutes in each block.
    const { frames, activities } = dithered({
      blocks: 12,
      trains: { heron: { seconds: 300, count: 3 }, wren: { seconds: 300, count: 3 } },
    });
    const late = frames.map((f) =>
      f.train === 'wren'
        ? { ...f, exposure: { startMs: f.exposure.startMs + 120_000, endMs: f.exposure.endMs + 120_000 } }
        : f,
    );
    const shifted = activities.map((a) => ({
      ...a,
      span: { startMs: a.span.startMs + 120_000, endMs: a.span.endMs + 120_000 },
    }));
    expect(found(unequalExposures, nightOf({ frames: late, activities: shifted }))).toEqual([]);
  });

  it('leave blocks with a hold in them out', () => {
    const plan = dithered({
      blocks: 3,
      trains: { heron: { seconds: 300, count: 3 }, wren: { seconds: 240, count: 4 } },
    });
    const after = dithered({
      blocks: 10,
      from: plan.endSeconds + 1800,
      trains: { heron: { seconds: 300, count: 3 }, wren: { seconds: 240, count: 4 } },
    });
    const hold = act('hold', plan.endSeconds, plan.endSeconds + 1800, { why: 'cloud' });
    const [finding] = found(
      unequalExposures,
      nightOf({
        frames: [...plan.frames, ...after.frames],
        activities: [...plan.activities, hold, ...after.activities],
      }),
    );
    expect(minutes(finding?.costMs)).toBeCloseTo(((2 + 8) * 63) / 60, 6);
  });

  it('are not assessed with one train', () => {
    expect(
      ask(
        unequalExposures,
        nightOf({ ...dithered({ blocks: 4, trains: { heron: { seconds: 300, count: 3 } } }), trains: [HERON] }),
      ),
    ).toEqual({ notAssessed: 'a second train' });
  });
});
