import { describe, expect, it } from 'vitest';
import { parseDeclinationDeg, parseRightAscensionDeg, parseSexagesimal } from '../../src/model/index.js';

describe('sexagesimal angles', () => {
  it.each([
    ['00:52:59', 0.88305556],
    ['00 52 59.0', 0.88305556],
    ['0h52m59s', 0.88305556],
    ['-00:30:00', -0.5],
    ['−10°30′', -10.5],
    ['+56:37:19', 56.62194444],
  ])('read %s', (text, value) => {
    expect(parseSexagesimal(text)?.value).toBeCloseTo(value, 7);
  });
  it.each(['', 'north', '12', '12:60:00', '12:00:61', '1:2:3:4', ':30:00'])('refuse %j', (text) => {
    expect(parseSexagesimal(text)).toBeUndefined();
  });
  it('are hours for right ascension and degrees for declination', () => {
    expect(parseRightAscensionDeg('06:00:00')).toBe(90);
    expect(parseDeclinationDeg('-06:00:00')).toBe(-6);
  });
  it('leave plain numbers as degrees', () => {
    expect(parseRightAscensionDeg(13.2458)).toBe(13.2458);
    expect(parseRightAscensionDeg('13.2458')).toBe(13.2458);
  });
  it('refuse what is out of range', () => {
    expect(parseRightAscensionDeg('25:00:00')).toBeUndefined();
    expect(parseDeclinationDeg(91)).toBeUndefined();
    expect(parseDeclinationDeg('')).toBeUndefined();
  });
  it('are in the unit that they name', () => {
    expect(parseRightAscensionDeg('13d14m45s')).toBeCloseTo(13.24583333, 7);
    expect(parseRightAscensionDeg('6h')).toBe(90);
    expect(parseDeclinationDeg('05h12m00s')).toBeUndefined();
  });
  it('may have seconds that a program rounded up to 60', () => {
    expect(parseDeclinationDeg('+12:34:60.0')).toBeCloseTo(12 + 35 / 60, 9);
  });
});
