import { describe, expect, it } from 'vitest';
import { belowHorizonWarnings } from '../../src/sky/below-horizon.js';
import { light } from '../support/events.js';

const lights = Array.from({ length: 6 }, (_, i) => light('heron', `20:${String(i * 6).padStart(2, '0')}:00`, 300));
const at = (altitudesDeg: readonly number[]) =>
  new Map(altitudesDeg.map((altitudeDeg, i) => [lights[i]?.id ?? '', { altitudeDeg }]));

describe('lights below the horizon', () => {
  it('are reported, with how far and what may be wrong', () => {
    const [warning, ...more] = belowHorizonWarnings(lights, at([-9.6, -8, -4, -2, 3, 9]));
    expect(more).toEqual([]);
    expect(warning).toMatchObject({ code: 'lights-below-horizon', count: 4 });
    expect(warning?.message).toMatch(/^4 of 6 lights of .+ are below the horizon, down to −10°: .+ signs of latitude/);
  });

  it('are none where a target stands low, where a frame or two have slipped, or where nothing is known', () => {
    expect(belowHorizonWarnings(lights, at([-0.5, 0, 1, 2, 3, 4]))).toEqual([]);
    expect(belowHorizonWarnings(lights, at([-50, -50, 40, 40, 40, 40]))).toEqual([]);
    expect(belowHorizonWarnings(lights, new Map())).toEqual([]);
  });
});
