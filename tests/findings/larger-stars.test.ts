import { describe, expect, it } from 'vitest';
import { largerStars } from '../../src/findings/larger-stars.js';
import { act, ask, found, HERON, lights, nightOf, place, sizeOf, WREN } from './support.js';

/** Both trains on one target; heron 1.6″ per pixel, wren 1.3″. Sizes in pixels. */
function nightWith(heron: number, wren: number, more: { filter?: string; airmass?: number; count?: number } = {}) {
  const { filter = 'Ha', airmass = 1, count = 10 } = more;
  const frames = [
    ...lights('heron', { from: 0, seconds: 300, count, header: () => ({ starSize: sizeOf(heron) }) }),
    ...lights('wren', { from: 0, seconds: 300, count, filter, header: () => ({ starSize: sizeOf(wren) }) }),
  ];
  const skyOf = (f: (typeof frames)[number]) =>
    place(f.exposure.startMs, 50, { airmass: f.train === 'wren' ? airmass : 1 });
  return nightOf({ frames, skyOf });
}

describe('stars larger than the partner’s', () => {
  it('are found in arcseconds, not in pixels', () => {
    // 2.45 px × 1.3″ = 3.2″ against 1.5 px × 1.6″ = 2.4″: a third larger.
    const [finding] = found(largerStars, nightWith(1.5, 2.45));
    expect(finding).toMatchObject({ title: 'wren’s stars were 33 % larger than heron’s', costMs: 0 });
    expect(finding?.evidence[0]).toContain('3.2″ on wren against 2.4″ on heron');
    expect(finding?.evidence[1]).toContain('is worth 57 % of one');
    expect(finding?.isFirst).toBe(true);
    expect(finding?.evidence[2]).toContain('did not refocus');
    // Larger in pixels, alike on the sky.
    expect(found(largerStars, nightWith(2, 2.46))).toEqual([]);
  });

  it('through some filters alone are said to be, and of which target where there are several', () => {
    const block = (from: number, filter: string, target: string, heron: number, wren: number) =>
      [
        ...lights('heron', { from, seconds: 300, count: 8, filter, header: () => ({ starSize: sizeOf(heron) }) }),
        ...lights('wren', { from, seconds: 300, count: 8, filter, header: () => ({ starSize: sizeOf(wren) }) }),
      ].map((f) => ({ ...f, target }));
    const frames = [
      ...block(0, 'Ha', 'NGC 281', 1.5, 2.45),
      ...block(3000, 'Ha', 'M 33', 1.5, 2.45),
      ...block(6000, 'OIII', 'M 33', 2.5, 2),
    ];
    const all = found(largerStars, nightOf({ frames, skyOf: (f) => place(f.exposure.startMs, 50, { airmass: 1 }) }));
    expect(all.map(({ title }) => title)).toEqual([
      'wren’s stars through Ha were 33 % larger than heron’s',
      'heron’s stars through OIII were 54 % larger than wren’s',
    ]);
    expect(all[0]?.evidence[0]).toMatch(/^NGC 281, Ha: 3\.2″ on wren/);
    expect(all[1]?.evidence[0]).toMatch(/^OIII: 4\.0″ on heron/);
  });

  it('are not found where the air mass explains them, through other filters, or in a few frames', () => {
    // 2 ^ 0.6 = 1.5 times at an air mass of 2.
    expect(found(largerStars, nightWith(1.5, 2.45, { airmass: 2 }))).toEqual([]);
    expect(found(largerStars, nightWith(1.5, 2.45, { filter: 'OIII' }))).toEqual([]);
    expect(found(largerStars, nightWith(1.5, 2.45, { count: 5 }))).toEqual([]);
  });

  it('are not found where coarse pixels and a small aperture explain them', () => {
    const trains = (aperture: { heron: number; wren: number }) => [
      { ...HERON, pixelScaleArcsec: 1.3, apertureMm: aperture.heron },
      { ...WREN, pixelScaleArcsec: 2.6, apertureMm: aperture.wren },
    ];
    // 2.3″ under one seeing: √(2.3² + 5.2² − 2.6²) = 5.1″ by two pixels each; with 117 mm″ ÷ D of each aperture 5.5″.
    const sampled = (wrenPx: number, aperture: { heron: number; wren: number }) => {
      const { timeline } = nightWith(1.77, wrenPx);
      const skyOf = (f: (typeof timeline.frames)[number]) => place(f.exposure.startMs, 50, { airmass: 1 });
      return nightOf({ frames: timeline.frames, trains: trains(aperture), skyOf });
    };
    expect(found(largerStars, sampled(5.2 / 2.6, { heron: 150, wren: 150 }))).toEqual([]);
    expect(found(largerStars, sampled(6 / 2.6, { heron: 150, wren: 150 }))).toHaveLength(1);
    expect(found(largerStars, sampled(6 / 2.6, { heron: 150, wren: 50 }))).toEqual([]);
  });

  it('that stayed so after a refocus are no matter of the focus', () => {
    const night = nightWith(1.5, 2.45);
    const focused = nightOf({
      frames: night.timeline.frames,
      activities: [act('focus', 303, 320, { train: 'wren' })],
      skyOf: (f) => place(f.exposure.startMs, 50, { airmass: 1 }),
    });
    expect(found(largerStars, night)[0]?.advice).toMatch(/^Refocus wren at the start/);
    expect(found(largerStars, focused)[0]?.advice).toMatch(
      /^The stars of wren stayed larger after its refocus: look at tilt/,
    );
  });

  it('that were as small at first are no matter of tilt, nor of the first place: something changed', () => {
    const size = (train: string) => (i: number) => ({ starSize: sizeOf(train === 'heron' ? 1.5 : i < 8 ? 1.9 : 3.2) });
    const frames = ['heron', 'wren'].flatMap((train) =>
      lights(train, { from: 0, seconds: 300, count: 20, header: size(train) }),
    );
    const focus = act('focus', -200, -20, { train: 'wren' });
    const skyOf = (f: (typeof frames)[number]) => place(f.exposure.startMs, 50, { airmass: 1 });
    const [finding] = found(largerStars, nightOf({ frames, activities: [focus], skyOf }));
    // The ninth frame begins 8 × 303 s after 21:00.
    expect(finding?.advice).toMatch(/^wren’s stars were as small at first: .* by 21:40, focus, dew or a knock/);
    expect(finding?.isFirst).toBeUndefined();
  });

  it('are not assessed without star sizes', () => {
    expect(ask(largerStars, nightOf({ frames: lights('heron', { from: 0, seconds: 300, count: 3 }) }))).toEqual({
      notAssessed: 'star sizes, in the headers or measured in the pixels',
    });
  });
});
