import { describe, expect, it } from 'vitest';
import { parseRig } from '../../src/config/index.js';
import { rightAscensionsAsBefore, withRightAscensions } from '../../src/gather/right-ascensions.js';
import type { HeaderFrame, Target } from '../../src/model/index.js';

// Places of J2000, by the catalogues of Messier and Dreyer as every almanac has them: M 42 stands at 05 h 35 min 17 s,
// −5° 23′; M 31 at 00 h 42 min 44 s, +41° 16′; NGC 7000 at 20 h 59 min, +44° 31′; NGC 281 at 00 h 52 min 59 s, +56° 37′.
const M42 = '{ name: M 42, ra: 5.588, dec: -5.39 }';
const M31 = '{ name: M 31, ra: 10.68, dec: 41.27 }';
const NGC7000 = '{ name: NGC 7000, ra: 20.98, dec: 44.52 }';

const rigOf = (...targets: string[]) =>
  parseRig('rig.yaml', `trains: [ { id: heron } ]\ntargets: [ ${targets.join(', ')} ]\n`).rig;
const light = (target: string, raDeg: number, decDeg: number): HeaderFrame =>
  ({ file: `${target}.fits`, target, pointing: { raDeg, decDeg } }) as HeaderFrame;
const placesOf = ({ rig }: ReturnType<typeof withRightAscensions>): Record<string, number> =>
  Object.fromEntries(rig.targets.map(({ name, raDeg }) => [name, Number(raDeg.toFixed(3))]));

describe('a right ascension without colons in the rig file', () => {
  it('is hours where the headers of the frames point there, and that is said', () => {
    const reported = withRightAscensions(rigOf(M42), [light('M42', 83.9, -5.2), light('M 42', 83.7, -5.6)]);
    expect(placesOf(reported)).toEqual({ 'M 42': 83.82 });
    expect(reported.warnings).toMatchObject([{ code: 'right-ascension-in-hours', count: 1 }]);
    expect(reported.warnings[0]?.message).toContain('M 42 (ra: 5.588, read as "05:35:17")');
  });

  it('is degrees where the headers point there, and nothing is said', () => {
    const reported = withRightAscensions(rigOf(M31), [light('M31', 10.7, 41.3)]);
    expect(placesOf(reported)).toEqual({ 'M 31': 10.68 });
    expect(reported.warnings).toEqual([]);
  });

  it('is read as the others are, which the same hand wrote', () => {
    const hours = withRightAscensions(rigOf(M42, NGC7000), [light('M 42', 83.8, -5.4)]);
    expect(placesOf(hours)).toEqual({ 'M 42': 83.82, 'NGC 7000': 314.7 });
    expect(hours.warnings).toMatchObject([{ code: 'right-ascension-in-hours', count: 2 }]);
    // Nobody writes 314.7 hours.
    const degrees = withRightAscensions(rigOf(M31, '{ name: NGC 7000, ra: 314.7, dec: 44.52 }'), []);
    expect(placesOf(degrees)).toEqual({ 'M 31': 10.68, 'NGC 7000': 314.7 });
    expect(degrees.warnings).toEqual([]);
  });

  it('stays degrees where nothing tells, and that is said with what to write', () => {
    const reported = withRightAscensions(rigOf(M42), [light('M 42', 200, 60)]);
    expect(placesOf(reported)).toEqual({ 'M 42': 5.588 });
    expect(reported.warnings).toMatchObject([{ code: 'right-ascension-open' }]);
    expect(reported.warnings[0]?.message).toContain('if it is hours, write "05:35:17"');
  });

  it('is not asked of what has colons, or is no hour', () => {
    const reported = withRightAscensions(
      rigOf('{ name: NGC 281, ra: "00:52:59", dec: "+56:37:19" }', '{ name: NGC 7000, ra: 314.7, dec: 44.52 }'),
      [],
    );
    expect(reported.warnings).toEqual([]);
    expect(placesOf(reported)).toEqual({ 'NGC 281': 13.246, 'NGC 7000': 314.7 });
  });

  it('reads as it did where a night is judged again', () => {
    const before: Target = { name: 'M 42', aliases: [], raDeg: 83.82, decDeg: -5.39, origin: 'rig-file' };
    expect(rightAscensionsAsBefore(rigOf(M42), [before]).targets[0]?.raDeg).toBeCloseTo(83.82, 6);
    expect(rightAscensionsAsBefore(rigOf(M42), [{ ...before, raDeg: 5.588 }]).targets[0]?.raDeg).toBe(5.588);
  });
});
