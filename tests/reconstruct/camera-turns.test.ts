import { describe, expect, it } from 'vitest';
import { unusedDarkness } from '../../src/findings/unused-darkness.js';
import { cameraTurns, type Frame } from '../../src/model/index.js';
import { cameraTurnWarnings } from '../../src/reconstruct/camera-turns.js';
import { compareClocks } from '../../src/reconstruct/clocks/index.js';
import { unusedAndTurned } from './turned-night.js';
import { found, lights, MINUTE, minutes } from '../findings/support.js';

/** Sixty lights of five minutes on each train, the second from so many minutes on. */
const frames = (fromMinute: number, more: { instrument?: string; focalLengthMm?: number } = {}): Frame[] => [
  ...lights('heron', {
    from: 0,
    seconds: 297,
    count: 30,
    header: () => ({ instrument: 'mono 26 MP', focalLengthMm: 480 }),
  }),
  ...lights('wren', {
    from: fromMinute * MINUTE,
    seconds: 297,
    count: 30,
    header: () => ({ instrument: 'mono 26 MP', focalLengthMm: 360, ...more }),
  }),
];

describe('a camera that changed telescopes in the night', () => {
  it('is one where all lights of the second train come after the first’s', () => {
    expect(cameraTurns(frames(180))).toMatchObject([{ from: 'heron', to: 'wren', instrument: 'mono 26 MP' }]);
    expect(cameraTurnWarnings(frames(180))[0]?.message).toContain('taken for one camera that changed telescopes');
  });

  it.each<[string, Frame[]]>([
    ['both expose at once', frames(30)],
    ['the cameras have names of their own', frames(180, { instrument: 'mono 9 MP' })],
    ['the optics are the same, under another name', frames(180, { focalLengthMm: 480 })],
    ['too few lights tell', frames(180).filter(({ train }, i) => train === 'wren' || i < 4)],
  ])('is not assumed where %s', (_, own) => {
    expect(cameraTurns(own)).toEqual([]);
  });

  it('leaves no clock in doubt: there is one, and nothing that both trains did', () => {
    const notes = compareClocks({
      trains: ['heron', 'wren'],
      headers: frames(180).flatMap(({ header, train }) => (header ? [{ ...header, train }] : [])),
      events: [],
      lineTimes: [],
      byHandMs: new Map(),
    }).notes;
    expect(notes).toEqual([]);
  });

  it('is called neither late nor idle while it was on the other telescope', () => {
    // Dark from a minute before the first light until an hour after the last.
    const [turned] = found(unusedDarkness, unusedAndTurned(frames(180)));
    expect(turned?.title).toMatch(/^Last exposure ended/);
    expect(turned?.evidence[0]).toMatch(/^wren exposed until/);
    expect(minutes(turned?.costMs)).toBeCloseTo(60, 0);
    const two = found(unusedDarkness, unusedAndTurned(frames(180, { instrument: 'mono 9 MP' })));
    expect(two.map(({ title }) => title)).toHaveLength(2);
  });
});
