import { describe, expect, it } from 'vitest';
import { calibrate } from '../../src/replay/calibrate/index.js';
import { compareWith } from '../../src/replay/compare.js';
import { applySettings, type Setting } from '../../src/replay/settings.js';
import { dithered, HERON, nightOf, WREN } from '../findings/support.js';

const FINCH = { id: 'finch', role: 'companion', pixelScaleArcsec: 2 } as const;

/** Heron's three subs lead; wren stops after four of its own and finch after five, minutes before each dither. */
function calibrated() {
  const { frames, activities } = dithered({
    blocks: 14,
    trains: {
      heron: { seconds: 300, count: 3 },
      wren: { seconds: 180, count: 4 },
      finch: { seconds: 120, count: 5 },
    },
  });
  const known = calibrate(nightOf({ frames, activities, trains: [HERON, WREN, FINCH] }));
  if ('missing' in known) throw new Error(known.missing);
  return known.course;
}

const dither = (frames: number): readonly Setting[] => [{ key: 'dither-every', frames }];
const exposure = (train: string, seconds: number): readonly Setting[] => [{ key: 'exposure', train, seconds }];

describe('waits that a count of own frames and a patience explain alike', () => {
  it('are known by both, and the patience is one for all that it suits', () => {
    const { rules, otherPatienceMs, assumed } = calibrated();
    expect(rules.ownCount).toEqual({ wren: 4, finch: 5 });
    // Finch is ready 294 s before the dither and wren 177 s; neither began anything so shortly before one.
    expect(otherPatienceMs?.finch).toBeGreaterThan(294_000);
    expect(otherPatienceMs?.wren).toBe(otherPatienceMs?.finch);
    expect(assumed.join()).toContain('wren is taken to wait after 4 frames of its own, and that it begins none within');
  });

  it('leave a range to every rule that changes the rhythm, and to no other', () => {
    const course = calibrated();
    const { otherPatienceMs: _none, ...alone } = course;
    const patient = { ...alone, rules: { ...alone.rules, ownCount: {}, patienceMs: course.otherPatienceMs ?? {} } };
    const gainOf = (of: typeof course, settings: readonly Setting[]) => compareWith(of).measure(settings).gain;
    const [both, byCount, byPatience] = [course, alone, patient].map((of) => gainOf(of, dither(4)));
    // By count both would be set anew to six and ten frames; patience lets finch begin two more, and wren one.
    expect((byCount?.meanMs ?? NaN) - (byPatience?.meanMs ?? NaN)).toBeGreaterThan(30 * 60_000);
    expect(both?.meanMs).toBeCloseTo(((byCount?.meanMs ?? NaN) + (byPatience?.meanMs ?? NaN)) / 2, 6);
    expect(both?.lowMs).toBe(byPatience?.lowMs);
    expect(both?.highMs).toBe(byCount?.highMs);
    const pause: readonly Setting[] = [{ key: 'pause', train: 'heron', seconds: 2 }];
    expect(gainOf(course, pause)).toEqual(gainOf(alone, pause));
  });
});

describe('the count of a companion', () => {
  it('is set anew for its own subs and the lead’s, not for another companion’s', () => {
    const course = calibrated();
    const counts = (settings: readonly Setting[]) => applySettings(course, settings).ownCount;
    expect(counts(exposure('finch', 150))).toEqual({ wren: 4, finch: 6 });
    expect(counts(exposure('wren', 300))).toEqual({ wren: 3, finch: 5 });
    expect(counts(dither(4))).toEqual({ wren: 7, finch: 10 });
  });
});
