import { describe, expect, it } from 'vitest';
import { trailedStars } from '../../src/findings/trailed-stars.js';
import { extended, type Cause, type FrameStars, type JudgedFrame, type Night } from '../../src/model/index.js';
import { CLEAR_STARS } from '../support/starry-night.js';
import { ask, found, HERON, lights, minutes, nightOf, WREN } from './support.js';

const FWHM = 2.5;
/** Squared width of an even trail of length 1: variance 1/12, FWHM² 8 ln 2 times that. */
const WIDTH2 = (8 * Math.LN2) / 12;

/** Stars of this width across, drawn out along a trail. */
function drawn(lengthPx: number, direction = 30): FrameStars {
  const along = Math.sqrt(FWHM ** 2 + WIDTH2 * lengthPx ** 2);
  return {
    ...CLEAR_STARS,
    fwhm: Math.sqrt(FWHM * along),
    elongation: along / FWHM,
    direction,
    agreement: lengthPx > 0 ? 0.95 : 0.2,
  };
}

interface Plan {
  /** Trail of a frame of heron, px, by its length and number. */
  readonly trail: (seconds: number, i: number) => number;
  readonly shift?: (i: number) => FrameStars['shift'];
  readonly wren?: number;
  readonly side?: (i: number) => string;
  readonly cause?: Partial<Cause>;
  readonly lengths?: readonly number[];
}

function nightWith({ trail, shift, wren, side, cause, lengths = [60, 240] }: Plan): Night {
  let from = 0;
  const heron = Array.from({ length: 24 }, (_, i) => {
    const seconds = lengths[Math.floor(i / 6) % lengths.length] ?? NaN;
    const own = lights('heron', {
      from,
      seconds,
      count: 1,
      ...(side ? { header: () => ({ pierSide: side(i) }) } : {}),
    });
    from += seconds + 3;
    return own;
  }).flat();
  const other = wren === undefined ? [] : lights('wren', { from: 0, seconds: from, count: 1 });
  const night = nightOf({ frames: [...heron, ...other], trains: other.length > 0 ? [HERON, WREN] : [HERON] });
  const secondsOf = ({ exposure }: JudgedFrame): number => (exposure.endMs - exposure.startMs) / 1000;
  const stars: Record<string, FrameStars> = {};
  const judged = night.accounts.lights.map((frame) => {
    if (frame.train === 'wren') {
      stars[frame.id] = drawn(wren ?? 0);
      return frame;
    }
    const i = heron.findIndex(({ id }) => id === frame.id);
    const own = { ...drawn(trail(secondsOf(frame), i)), ...(shift ? { shift: shift(i) } : {}) };
    stars[frame.id] = own;
    if ((own.elongation ?? 1) <= 1.25) return frame;
    const trailed: Cause = {
      kind: 'trailed',
      verdict: 'lost',
      by: 'pixels',
      span: frame.exposure,
      overlapMs: frame.exposure.endMs - frame.exposure.startMs,
      evidence: '',
      certainty: 'measured',
      sources: [],
      ...cause,
    };
    return extended(frame, { verdict: 'lost' as const, causes: [trailed] });
  });
  return {
    ...night,
    stars: { frames: stars, pairs: [], pointings: [], warnings: [] },
    accounts: { ...night.accounts, lights: judged },
  };
}

const said = (night: Night): string => found(trailedStars, night)[0]?.evidence.join('; ') ?? '';

describe('stars long in one direction', () => {
  it('that grow with the exposure are drawn by a field that moves: shorter subs are promised', () => {
    const night = nightWith({ trail: (seconds) => seconds / 60 });
    const [finding, ...more] = found(trailedStars, night);
    expect(more).toEqual([]);
    expect(finding?.title).toBe('heron’s stars were long in one direction in 12 of 24 frames');
    expect(minutes(finding?.costMs)).toBeCloseTo(48, 6);
    // The ratio 1.25 is that of 2.76 px, which take 166 s: in subs of 150 s with the same pause of 3 s.
    expect(minutes(finding?.winMs)).toBeCloseTo((48 * (150 / 153)) / (240 / 243), 3);
    expect(finding?.evidence.join('; ')).toContain('the trail grows with the exposure, by 1.00 px a minute');
    expect(finding?.evidence.join('; ')).toContain('as of a trail of 4.0 px (6.4″)');
    expect(finding?.advice).toMatch(
      /^Expose heron no longer than 2 min 30 s as it stands, or mend what moves the field/,
    );
    expect(finding?.caution).toBeDefined();
  });

  it('that are as long in short subs are the optics’: nothing is promised', () => {
    const [finding] = found(trailedStars, nightWith({ trail: () => 4 }));
    expect(finding?.evidence.join('; ')).toContain('it does not grow while the shutter is open');
    expect(finding?.advice).toMatch(/^Look at heron’s optics before the mount/);
    expect(finding).not.toHaveProperty('winMs');
  });

  it('in subs of one length are a question that the next night answers', () => {
    const [finding] = found(trailedStars, nightWith({ trail: () => 4, lengths: [240] }));
    expect(finding?.evidence.join('; ')).toContain('all subs were of one length');
    expect(finding?.advice).toMatch(/^Take a few subs of heron a third as long as 240 s, and compare/);
    expect(finding?.confidence).toBe('low');
    expect(finding).not.toHaveProperty('winMs');
  });

  it('are explained by a drift from frame to frame along them, not by one across', () => {
    const along = (deg: number) => (i: number) => ({
      x: 4 * i * Math.cos((deg * Math.PI) / 180),
      y: 4 * i * Math.sin((deg * Math.PI) / 180),
      rotation: 0,
      matched: 40,
    });
    const plan = { trail: () => 4, lengths: [240] };
    expect(said(nightWith({ ...plan, shift: along(30) }))).toContain('the field moved on the same way from frame to');
    expect(said(nightWith({ ...plan, shift: along(120) }))).toContain('all subs were of one length');
  });

  it('are the train’s own where another one’s are round, and the mount’s where they are long too', () => {
    expect(said(nightWith({ trail: () => 4, wren: 0 }))).toContain('the reason is heron’s own, not the mount’s');
    expect(said(nightWith({ trail: () => 4, wren: 5 }))).toContain('what they share is the mount');
  });

  it('tell on which side of the pier they are longer, and whether they come and go', () => {
    const sided = nightWith({ trail: (_, i) => (i < 12 ? 4 : 6), side: (i) => (i < 12 ? 'EAST' : 'WEST') });
    expect(said(sided)).toContain('6.0 px on the side of the pier that headers call west, 4.0 px on the other');
    expect(said(nightWith({ trail: () => 4 }))).toContain('about as long from frame to frame');
    expect(said(nightWith({ trail: (_, i) => 3 + (i % 4) }))).toMatch(/from 3\.0 to [56]\.\d px long/);
  });

  it('are not reported in a few frames, nor where an interruption explains them', () => {
    expect(found(trailedStars, nightWith({ trail: (_, i) => (i % 8 === 0 ? 4 : 0) }))).toEqual([]);
    const known = nightWith({ trail: () => 4, cause: { span: { startMs: 0, endMs: 1 } } });
    expect(found(trailedStars, known)).toEqual([]);
  });

  it('are not assessed where no pixels were measured', () => {
    expect(ask(trailedStars, nightOf({ frames: lights('heron', { from: 0, seconds: 300, count: 3 }) }))).toEqual({
      notAssessed: 'stars measured in the pixels',
    });
  });
});
