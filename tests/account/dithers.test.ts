import { describe, expect, it } from 'vitest';
import { ditherCycles } from '../../src/account/dithers.js';
import { at, light } from '../support/events.js';
import { activity } from '../model/judging/around.js';

const move = activity('dither-move', '21:10:00', '21:10:04');
const settle = activity('settling', '21:10:04', '21:10:16');
/** What the trains go on with afterwards. */
const later = [light('heron', '21:10:16', 300), light('wren', '21:10:16', 240)];

describe('a dither cycle', () => {
  it('measures each train’s wait from its readiness, and names who was ready last', () => {
    const ready = [
      activity('dither-ready', '21:09:20', '21:10:00', { train: 'heron' }),
      activity('dither-ready', '21:10:00', '21:10:00', { train: 'wren' }),
    ];
    const [cycle] = ditherCycles(['heron', 'wren'], later, [...ready, move, settle]);
    expect(cycle).toMatchObject({
      holder: 'wren',
      waits: { heron: { waitMs: 40_000, certainty: 'measured' }, wren: { waitMs: 0 } },
    });
    expect(cycle?.settle).toEqual(settle.span);
  });
  it('infers readiness from the last frame’s saving', () => {
    const frames = [light('heron', '21:04:00', 300), light('wren', '21:05:30', 240), ...later];
    const readout = activity('readout', '21:09:00', '21:09:03', { train: 'heron' });
    const [cycle] = ditherCycles(['heron', 'wren'], frames, [readout, move, settle]);
    expect(cycle?.waits.heron).toMatchObject({ readyMs: at('21:09:03'), waitMs: 57_000, certainty: 'inferred' });
    expect(cycle?.holder).toBe('wren');
  });
  it('does not call a train with an open shutter ready', () => {
    const [cycle] = ditherCycles(
      ['heron', 'wren'],
      [light('heron', '21:04:00', 300), light('wren', '21:08:00', 300), ...later],
      [move],
    );
    expect(cycle?.waits.wren).toBeNull();
    expect(cycle?.holder).toBeNull();
  });
  it('was waited for by a train that was ready within what its clock may be off', () => {
    const ready = [
      activity('dither-ready', '21:09:20', '21:10:00', { train: 'heron' }),
      activity('dither-ready', '21:10:00.600', '21:10:00.600', { train: 'wren' }),
    ];
    const leeway = (steadyMs: number) => new Map([['wren', { steadyMs, aboutMs: () => steadyMs }]]);
    const holder = (steadyMs: number, frames: ReturnType<typeof light>[], ...more: typeof ready) => {
      const [cycle] = ditherCycles(['heron', 'wren'], [...frames, ...later], [...more, move, settle], leeway(steadyMs));
      return [cycle?.holder, cycle?.waits.wren?.waitMs];
    };
    expect(holder(1800, [], ...ready)).toEqual(['wren', 0]);
    expect(holder(200, [], ...ready)).toEqual([null, undefined]);
    // Of a companion without a log, only the exposure's end tells.
    const frames = [light('heron', '21:04:00', 300), light('wren', '21:06:00.600', 240)];
    expect(holder(1800, frames)).toEqual(['wren', 0]);
    expect(holder(200, frames)).toEqual([null, undefined]);
  });
  it('has no holder with one train', () => {
    const [cycle] = ditherCycles(['heron'], [light('heron', '21:04:00', 300), ...later.slice(0, 1)], [move, settle]);
    expect(cycle?.holder).toBeNull();
    expect(cycle?.waits.heron?.waitMs).toBe(60_000);
  });
  it('leaves out a train that has long stopped', () => {
    const [cycle] = ditherCycles(
      ['heron', 'wren'],
      [light('wren', '20:00:00', 300), light('heron', '21:04:00', 300), ...later],
      [move],
    );
    expect(cycle?.waits.wren).toBeNull();
  });
  it('has no wait of a train that exposes no more, though its log says that it is ready', () => {
    const ready = ['heron', 'wren'].map((train) => activity('dither-ready', '21:09:20', '21:10:00', { train }));
    const [cycle] = ditherCycles(
      ['heron', 'wren'],
      [light('heron', '21:04:00', 300), light('wren', '21:05:00', 240), ...later.slice(0, 1)],
      [...ready, move, settle],
    );
    expect(cycle?.waits).toMatchObject({ heron: { waitMs: 40_000 }, wren: null });
    expect(cycle?.holder).toBeNull();
  });
});
