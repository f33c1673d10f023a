import { describe, expect, it } from 'vitest';
import { header } from '../../../src/record/parts/header.js';

const FILE = { file: 'a.fits', sizeBytes: 5760, headerHash: 'a' };
const HOW = {
  instant: (atMs: number) => atMs,
  file: () => 'heron Ha 0001',
  frame: (id: string) => id,
  window: { startMs: 0, endMs: 1 },
};

describe('a header in a record', () => {
  it('is read as earlier programs wrote it: places and star sizes in fields of their own', () => {
    const read = header.schema.parse({
      ...FILE,
      kind: 'light',
      target: 'M 33',
      raDeg: 23.4,
      decDeg: 30.6,
      starSize: 2.1,
      starMeasure: 'half-flux',
      siteLatitudeDeg: 40.42,
      siteLongitudeDeg: -1.12,
      siteElevationM: 1100,
    });
    expect(read).toEqual({
      ...FILE,
      kind: 'light',
      target: 'M 33',
      pointing: { raDeg: 23.4, decDeg: 30.6 },
      starSize: { pixels: 2.1, measure: 'half-flux' },
      site: { latitudeDeg: 40.42, longitudeDeg: -1.12, elevationM: 1100 },
    });
  });

  it('of half a place has none, and a size without a measure an unknown one', () => {
    const read = header.schema.parse({ ...FILE, kind: 'light', raDeg: 23.4, siteLatitudeDeg: 40, starSize: 2.1 });
    expect(read).toEqual({ ...FILE, kind: 'light', starSize: { pixels: 2.1, measure: 'unknown' } });
  });

  it.each(['dark', 'bias', 'dark-flat', 'other'] as const)('has nothing of the sky, nor a filter: %s', (kind) => {
    const read = header.schema.parse({ ...FILE, kind, target: 'M 33', filter: 'Ha', raDeg: 1, decDeg: 2, gain: 100 });
    expect(read).toEqual({ ...FILE, kind, gain: 100 });
  });

  it('of a flat has its filter, and nothing of the sky', () => {
    const read = header.schema.parse({
      ...FILE,
      kind: 'flat',
      filter: 'Ha',
      target: 'M 33',
      starSize: 2,
      starCount: 4,
    });
    expect(read).toEqual({ ...FILE, kind: 'flat', filter: 'Ha' });
  });

  it.each([
    ['a kind that is none', { ...FILE, kind: 'snapshot' }],
    ['a place that is none', { ...FILE, kind: 'light', pointing: { raDeg: 1e9, decDeg: 2 } }],
    ['a size that is none', { ...FILE, kind: 'light', starSize: 'large' }],
    ['no header', 7],
  ])('is refused: %s', (_what, damaged) => {
    expect(header.schema.safeParse(damaged).success).toBe(false);
  });

  it('keeps its places at home when the night is shared', () => {
    const shared = header.redact(
      header.schema.parse({
        ...FILE,
        kind: 'light',
        filter: 'Ha',
        pointing: { raDeg: 23.4, decDeg: 30.6 },
        site: { latitudeDeg: 40.42, longitudeDeg: -1.12 },
        starCount: 812,
      }),
      HOW,
    );
    expect(shared).toEqual({ file: 'heron Ha 0001', sizeBytes: 0, headerHash: '', kind: 'light', filter: 'Ha' });
  });
});
