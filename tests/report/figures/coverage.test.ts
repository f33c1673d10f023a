import { describe, expect, it } from 'vitest';
import { interval, type Frame, type FrameKind, type JudgedFrame, type LightFacts } from '../../../src/model/index.js';
import { coverageOf } from '../../../src/report/figures/coverage.js';
import { namedNight } from '../../support/nights.js';

/** What darks, flats and bias frames are matched by. */
type Settings = Pick<LightFacts, 'gain' | 'offset' | 'binning' | 'setTemperatureC' | 'sensorTemperatureC'>;

let count = 0;

function frame(kind: FrameKind, seconds: number, header: Settings = {}, more: Partial<Frame> = {}): Frame {
  count += 1;
  const exposure = interval(count * 1_000_000, count * 1_000_000 + Math.round(seconds * 1000));
  return {
    id: `f${count}`,
    train: 'heron',
    kind,
    exposure,
    provenance: 'file-only',
    sources: [],
    header: {
      file: `f${count}.fits`,
      sizeBytes: 0,
      headerHash: '',
      ...(kind === 'light' ? { kind } : kind === 'flat' ? { kind } : { kind }),
      gain: 100,
      offset: 50,
      binning: { x: 1, y: 1 },
      setTemperatureC: -10,
      ...header,
    },
    ...more,
  };
}

const light = (header: Settings = {}, more: Partial<Frame> = {}): JudgedFrame => ({
  ...frame('light', 300, header, { filter: 'Ha', ...more }),
  verdict: 'kept',
  causes: [],
  cleared: [],
  sky: null,
  guiding: null,
});

/** A night of nothing but these. */
function nightOf(lights: readonly JudgedFrame[], library: readonly Frame[]): Parameters<typeof coverageOf>[0] {
  const night = namedNight('no-frames');
  return { accounts: { ...night.accounts, lights }, timeline: { ...night.timeline, frames: lights, library } };
}

describe('coverageOf', () => {
  it('counts the calibration frames that match', () => {
    const [group] = coverageOf(
      nightOf(
        [light(), light()],
        [
          frame('dark', 300),
          frame('dark', 300),
          frame('flat', 2, {}, { filter: 'Ha' }),
          frame('bias', 0.001),
          frame('dark-flat', 2),
        ],
      ),
    );
    expect(group).toMatchObject({ lights: 2, darks: 2, flats: 1, bias: 1, darkFlats: 1 });
  });

  it.each([
    ['another gain', frame('dark', 300, { gain: 0 })],
    ['another offset', frame('dark', 300, { offset: 10 })],
    ['another binning', frame('dark', 300, { binning: { x: 2, y: 2 } })],
    ['another temperature', frame('dark', 300, { setTemperatureC: -5 })],
    ['another exposure', frame('dark', 180)],
    ['another train', frame('dark', 300, {}, { train: 'wren' })],
  ])('does not take a dark of %s', (_what, dark) => {
    expect(coverageOf(nightOf([light()], [dark]))[0]?.darks).toBe(0);
  });

  it('bears a degree of difference', () => {
    expect(coverageOf(nightOf([light()], [frame('dark', 300, { setTemperatureC: -9.2 })]))[0]?.darks).toBe(1);
  });

  it('matches flats by filter and binning, whatever their gain', () => {
    const flats = [
      frame('flat', 2, { gain: 0 }, { filter: 'Ha' }),
      frame('flat', 2, {}, { filter: 'OIII' }),
      frame('flat', 2, { binning: { x: 2, y: 2 } }, { filter: 'Ha' }),
    ];
    expect(coverageOf(nightOf([light()], flats))[0]?.flats).toBe(1);
  });

  it('does not guess where a header does not say', () => {
    const { gain: _gain, ...silent } = light().header ?? {
      file: '',
      sizeBytes: 0,
      headerHash: '',
      kind: 'light' as const,
    };
    const mute: JudgedFrame = { ...light(), header: silent };
    expect(coverageOf(nightOf([mute], [frame('bias', 0)]))[0]?.bias).toBe(0);
  });

  it('keeps lights of different settings apart, and leaves out those without a file', () => {
    const { header: _header, ...logOnly } = light();
    const groups = coverageOf(nightOf([light(), light({ gain: 0 }), light({}, { filter: 'OIII' }), logOnly], []));
    expect(groups).toHaveLength(3);
  });

  it('says of the invented night that only heron’s narrowband is covered', () => {
    const covered = coverageOf(namedNight('twin-night')).filter(
      (group) => group.darks > 0 && group.flats > 0 && group.bias > 0,
    );
    expect(covered.map((group) => `${group.train} ${group.filter}`).sort()).toEqual(['heron Ha', 'heron OIII']);
  });
});
