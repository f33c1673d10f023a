import { describe, expect, it } from 'vitest';
import { judgeFrame } from '../../../src/model/index.js';
import { doubled } from '../../../src/model/judging/doubled.js';
import { light } from '../../support/events.js';
import { activity, around, causesBy } from './around.js';
import { stars, usual } from './measured.js';

const frame = light('wren', '21:00:00', 300);
const second = (share: number, x: number, y = 0) => ({ doubled: { x, y, share, significance: 30 } });

describe('doubled stars', () => {
  const of = (share: number, x: number, more = {}) =>
    causesBy(doubled, frame, around({ stars: stars({ ...second(share, x), ...more }), usual: usual() }));

  // σ = 3/2.3548 = 1.274 px; f(1 − f)d² = 0.16·36 = 5.76; 1 − 1/√(1 + 5.76/1.623) = 0.53.
  it('lose a frame by what second moments make of them', () => {
    const [cause] = of(0.2, 6);
    expect(cause).toMatchObject({ verdict: 'lost', kind: 'doubled', overlapMs: 300_000 });
    expect(cause?.evidence).toMatch(
      /^every star appears twice, with 20 % of its light 6\.0 px .*elongates stars by 0\.53/,
    );
    expect(cause?.evidence).toContain('nothing logged says when');
  });

  it('are doubtful with little light, in few stars, or near; and no cause where they draw nothing', () => {
    expect(of(0.04, 12)).toMatchObject([{ verdict: 'doubtful' }]);
    expect(of(0.2, 6, { count: 9 })).toMatchObject([{ verdict: 'doubtful' }]);
    // 0.0564·9 = 0.51: 0.13.
    expect(of(0.06, 3)).toMatchObject([{ verdict: 'doubtful' }]);
    expect(of(0.02, 2)).toEqual([]);
    expect(causesBy(doubled, frame, around({ stars: stars(), usual: usual() }))).toEqual([]);
  });

  // Drawn frames: wind that sweeps 15 to 30 % of the light to one side looks so, 1.3 to 2.1 widths off.
  it('may be a tail that wind drew, if near and faint, and say so', () => {
    const [near] = of(0.08, 6);
    expect(near?.evidence).toMatch(/^every star appears twice or has a tail, .*or wind pushed it to one side, while/);
    for (const [share, x] of [
      [0.08, 8],
      [0.2, 6],
    ] as const) {
      expect(of(share, x)[0]?.evidence).toMatch(/^every star appears twice, .*the mount moved while the shutter/);
    }
  });

  it('are one harm with a trail, and clear no pause in guiding', () => {
    expect(of(0.2, 6, { elongation: 1.9, agreement: 0.95 })).toEqual([]);
    const pause = activity('guiding-rest', '21:01:00', '21:01:48', { causedBy: 'heron' });
    const judged = judgeFrame(
      frame,
      around({ guidingOff: [pause], stars: stars({ ...second(0.2, 6) }), usual: usual() }),
    );
    expect(judged.cleared).toEqual([]);
    expect(judged.causes.find(({ kind }) => kind === 'doubled')).toMatchObject({
      causedBy: 'heron',
      overlapMs: 48_000,
    });
  });
});
