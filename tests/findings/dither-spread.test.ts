import { describe, expect, it } from 'vitest';
import { ditherSpread } from '../../src/findings/dither-spread.js';
import { EVEN_PLACES, pointed, pointingOf, spreadOf } from '../support/pointing.js';
import { ask, found, lights, nightOf } from './support.js';

const plain = nightOf({ frames: lights('heron', { from: 0, seconds: 300, count: 3 }) });

const oneWay = { netPx: 30, pathPx: 60, trendPx: 30, aroundPx: 2, trendDeg: 30, nextStepCosine: 0.8, isWalking: true };

describe('dithers that hardly spread, or go one way', () => {
  it('are found with what was asked and got', () => {
    const small = EVEN_PLACES.map(([x, y]) => [x / 8, y / 8] as const);
    const dithers = spreadOf(small, { scatterPx: { x: 0.7, y: 0.9 } });
    const [finding] = found(ditherSpread, pointed(plain, { pointings: [pointingOf('wren', { dithers })] }));
    expect(finding?.title).toBe('wren’s dithers on NGC 281 spread over only 0.7 px');
    expect(finding?.advice).toContain('about 3 times as large');
    expect(finding?.evidence[1]).toContain('5.0 px of the guide camera asked');
  });

  it('are found where they walk', () => {
    const walking = pointingOf('heron', { dithers: spreadOf(EVEN_PLACES, { oneWay }) });
    expect(found(ditherSpread, pointed(plain, { pointings: [walking] }))[0]?.title).toBe(
      'heron’s dithers on NGC 281 went one way: 30 px over the night',
    );
  });

  it('are not found where they spread', () => {
    expect(found(ditherSpread, pointed(plain))).toEqual([]);
  });

  it('are not assessed without places', () => {
    expect(ask(ditherSpread, pointed(plain, { pointings: [pointingOf('heron', { dithers: null })] }))).toEqual({
      notAssessed: 'stars measured in frames of one field at three or more dither positions',
    });
  });
});
