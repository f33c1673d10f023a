import { describe, expect, it } from 'vitest';
import type { Frame, FrameStars, Train } from '../../src/model/index.js';
import { clocksBySteps } from '../../src/stars/clock-by-steps.js';
import { CLEAR_STARS } from '../support/starry-night.js';
import { at, light } from '../support/events.js';
import { seeded } from '../support/generator/random.js';

const TRAINS: readonly Train[] = [
  { id: 'heron', role: 'pilot', pixelScaleArcsec: 1.6 },
  { id: 'wren', role: 'companion', pixelScaleArcsec: 1.3 },
];

/**
 * Heron dithers after every second sub of 300 s; wren, turned and mirrored, exposes 180 s on its own, or begins with
 * heron's subs. Its clock is ahead.
 */
function night(aheadMs: number, { dithers = 16, isInStep = false, isMixed = false } = {}) {
  const random = seeded(5);
  const begin = at('21:00:00');
  const moves = Array.from({ length: dithers }, (_, i) => ({
    atMs: begin + (i + 1) * 622_000 - 10_000,
    x: random.normal(0, 6),
    y: random.normal(0, 6),
  }));
  const frames: Frame[] = [];
  const stars: Record<string, FrameStars> = {};
  const add = (train: string, beginMs: number, seconds: number, own: number, scale: number): void => {
    const middleMs = beginMs + 500 * seconds;
    const inside = moves.find(({ atMs }) => atMs > beginMs && atMs < beginMs + 1000 * seconds);
    const share = isMixed && inside !== undefined ? (inside.atMs - beginMs) / (1000 * seconds) : 0;
    // Registration finds the image of either place, more often the brighter one.
    const isFirst = isMixed && random.next() < share;
    const gone = moves.filter((m) => (m === inside && isMixed ? !isFirst : m.atMs <= middleMs));
    const [x, y] = [gone.reduce((sum, m) => sum + m.x, 0), gone.reduce((sum, m) => sum + m.y, 0)];
    const place = own === 0 ? { x, y } : { x: (0.8 * x + 0.6 * y) / scale, y: (0.6 * x - 0.8 * y) / scale };
    const time = new Date(beginMs + own).toISOString().slice(11, 23);
    const frame = light(train, time, seconds, { id: `${train}-${beginMs}` });
    frames.push(frame);
    const jitter = (): number => random.normal(0, 0.15);
    const shift = {
      x: (own === 0 ? place.x / scale : place.x) + jitter(),
      y: (own === 0 ? place.y / scale : place.y) + jitter(),
      rotation: 0.01,
      matched: 30,
    };
    const fainter = Math.min(share, 1 - share);
    // From the brighter image to the fainter one, as the stars move: opposite to the shift of their frame.
    const sign = share > 0.5 ? -1 : 1;
    const way = inside && {
      x: (sign * (0.8 * inside.x + 0.6 * inside.y)) / scale,
      y: (sign * (0.6 * inside.x - 0.8 * inside.y)) / scale,
    };
    const doubled = way && fainter > 0.05 && own !== 0 ? { ...way, share: fainter, significance: 30 } : undefined;
    stars[frame.id] = { ...CLEAR_STARS, shift, ...(doubled && { doubled }) };
  };
  for (let i = 0; i < 2 * dithers; i++) {
    const beginMs = begin + Math.floor(i / 2) * 622_000 + (i % 2) * 302_000;
    add('heron', beginMs, 300, 0, 1.6);
    if (isInStep) add('wren', beginMs, 300, aheadMs, 1.3);
  }
  for (let i = 0; !isInStep && i < (dithers * 622) / 185; i++)
    add('wren', begin + 45_000 + i * 185_000, 180, aheadMs, 1.3);
  return { trains: TRAINS, timeline: { frames, activities: [] }, stars: { frames: stars } };
}

describe('the clock of a train that exposes on its own', () => {
  it('is derived from the frames between which its stars step, however its camera is rotated or mirrored', () => {
    const clock = clocksBySteps(night(37_000)).get('wren');
    expect(clock?.moves).toBeGreaterThan(12);
    expect(clock?.uncertaintyMs).toBeLessThanOrEqual(15_000);
    expect(Math.abs((clock?.aheadMs ?? 0) - 37_000)).toBeLessThanOrEqual(clock?.uncertaintyMs ?? 0);
  });

  it('is derived from frames that the mount moved in, by the light of each star in both places', () => {
    const clock = clocksBySteps(night(37_000, { isMixed: true })).get('wren');
    expect(clock?.uncertaintyMs).toBeLessThanOrEqual(15_000);
    expect(Math.abs((clock?.aheadMs ?? 0) - 37_000)).toBeLessThanOrEqual(clock?.uncertaintyMs ?? 0);
  });

  it('is undetermined if it begins with the other’s subs: any offset within one fits; and with few moves', () => {
    expect(clocksBySteps(night(37_000, { isInStep: true })).size).toBe(0);
    expect(clocksBySteps(night(37_000, { dithers: 7 })).size).toBe(0);
  });
});
